import { rulesOf } from '../rule.ts'
import { atLeast, atMost, en1264part4, judgement, tilingBody, tradePractice } from '../sources.ts'

export const bayRules = rulesOf('Bays and joints', {
  'bay.heatedAreaM2': ['Largest bay, heated or under tiles?', atMost(40, 'm²', tilingBody), [5, 300]],
  'bay.heatedSideM': ['Longest side, heated or under tiles?', atMost(8, 'm', tilingBody), [2, 40]],
  'bay.ratio': ['Longest side to shortest?', atMost(2, ': 1', tilingBody), [1, 5]],
  'bay.tileUnheatedSideM': ['Longest side under tiles, unheated?', atMost(10, 'm', tilingBody), [2, 40]],
  'bay.calciumSulfateHeatedAreaM2': [
    'Largest heated calcium sulfate bay?',
    atMost(300, 'm²', tradePractice),
    [20, 1000],
  ],
  'bay.calciumSulfateAreaM2': [
    'Largest unheated calcium sulfate bay?',
    atMost(1000, 'm²', tradePractice),
    [20, 5000],
  ],
  'bay.calciumSulfateSideM': [
    'Longest unheated calcium sulfate bay without a break?',
    atMost(30, 'm', tradePractice),
    [5, 100],
  ],
  'bay.mirrorMm': [
    'How near must a joint be to the base joint below?',
    atMost(50, 'mm', tradePractice),
    [5, 300],
  ],
  'bay.baseCrackMm': [
    'From what width does a base crack count as a joint?',
    atMost(0.5, 'mm', judgement),
    [0.1, 5],
  ],
  'bay.inducerDepthPercent': [
    'Least depth of a crack inducer?',
    atLeast(25, '% of thickness', judgement),
    [10, 60],
  ],
  'bay.inducerHours': [
    'Latest time to cut an inducer after finishing?',
    atMost(48, 'h', judgement),
    [4, 336],
  ],
  'bay.edgeStripMm': ['Least thickness of the edge strip?', atLeast(8, 'mm', tradePractice), [3, 25]],
  'bay.edgeMovementHeatedMm': [
    'Least free movement at the edge of a heated bay?',
    atLeast(5, 'mm', en1264part4),
    [2, 25],
  ],
  'bay.crackHairlineMm': ['Up to what width is a crack a hairline?', atMost(0.3, 'mm', judgement), [0.05, 1]],
  'bay.layRateMost': [
    'Fastest believable laying rate?',
    atMost(14, 'm² per person and hour', judgement),
    [3, 60],
  ],
})

export const recordRules = rulesOf('The record', {
  'record.lateHours': ['After how many hours is an entry marked late?', atMost(48, 'h', judgement), [1, 336]],
  'record.ambientGapHours': [
    'Longest gap in the air readings of a young bay?',
    atMost(24, 'h', judgement),
    [1, 96],
  ],
  'record.ambientPerDay': [
    'Least air readings a day in the first week?',
    atLeast(2, 'readings', judgement),
    [1, 24],
  ],
  'record.youngDays': ['For how many days is a bay young?', atMost(7, 'days', judgement), [1, 28]],
  'record.sameReadings': [
    'How many equal readings in a row ask a question?',
    atMost(5, 'readings', judgement),
    [2, 50],
  ],
  'record.sandMoisturePercent': [
    'Least share of batches with a sand moisture?',
    atLeast(90, '%', judgement),
    [0, 100],
  ],
})
