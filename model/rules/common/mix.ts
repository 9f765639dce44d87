import { rulesOf } from '../rule.ts'
import { at, atLeast, atMost, bs8204part1, judgement, tradePractice } from '../sources.ts'

const mass = at(bs8204part1, 'mix 1:3 to 1:4.5')

export const mixRules = rulesOf('Mix', {
  'mix.sandPerCementLeast': [
    'Least dry sand for one part of cement, by mass?',
    atLeast(3, 'kg/kg', mass),
    [1, 10],
  ],
  'mix.sandPerCementMost': [
    'Most dry sand for one part of cement, by mass?',
    atMost(4.5, 'kg/kg', mass),
    [1, 10],
  ],
  'mix.sandPerCementActLeast': [
    'Sand ratio below which the batch needs action?',
    atLeast(2.5, 'kg/kg', judgement),
    [1, 10],
  ],
  'mix.sandPerCementActMost': [
    'Sand ratio above which the batch needs action?',
    atMost(5, 'kg/kg', judgement),
    [1, 10],
  ],
  'mix.waterCementLeast': [
    'Least total water for one part of cement?',
    atLeast(0.35, 'kg/kg', judgement),
    [0.2, 1.2],
  ],
  'mix.waterCementMost': [
    'Most total water for one part of cement?',
    atMost(0.55, 'kg/kg', judgement),
    [0.2, 1.2],
  ],
  'mix.waterCementActLeast': [
    'Water ratio below which the batch needs action?',
    atLeast(0.3, 'kg/kg', judgement),
    [0.2, 1.2],
  ],
  'mix.waterCementActMost': [
    'Water ratio above which the batch needs action?',
    atMost(0.65, 'kg/kg', judgement),
    [0.2, 1.2],
  ],
  'mix.mixingMinutes': ['Shortest mixing time?', atLeast(2, 'min', judgement), [0.5, 15]],
  'mix.tempLeastC': ['Coldest mix that may be laid?', atLeast(5, '°C', bs8204part1), [0, 20]],
  'mix.tempMostC': [
    'Warmest mix, or air, to lay in without extra measures?',
    atMost(30, '°C', tradePractice),
    [20, 45],
  ],
  'mix.workingLifeMinutes': [
    'Working life at 20 °C when the maker gives none?',
    atMost(60, 'min', judgement),
    [10, 1440],
  ],
  'mix.workingLifeHotFactor': [
    'Share of that life left at 25 °C and above?',
    atMost(0.7, '×', judgement),
    [0.2, 1],
  ],
  'mix.workingLifeColdFactor': [
    'Share of that life at 10 °C and below?',
    atMost(1.3, '×', judgement),
    [1, 3],
  ],
  'mix.workingLifeWatchPercent': [
    'Share of the working life after which a batch is watched?',
    atMost(80, '%', judgement),
    [30, 100],
  ],
  'mix.liftGapMinutes': ['Longest gap between the two lifts?', atMost(45, 'min', judgement), [5, 240]],
  'mix.slurryMinutes': ['Oldest bonding slurry to lay on?', atMost(20, 'min', judgement), [2, 120]],
  'mix.baseTempLeastC': ['Coldest base to lay on?', atLeast(2, '°C', tradePractice), [0, 15]],
  'mix.slabAgeDays': [
    'Least age of a new slab before a bonded screed?',
    atLeast(42, 'days', bs8204part1),
    [7, 365],
  ],
  'mix.massDifferencePercent': [
    'Largest difference between mass laid and mass expected?',
    atMost(12, '%', judgement),
    [2, 50],
  ],
})
