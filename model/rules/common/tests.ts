import { rulesOf } from '../rule.ts'
import {
  astmF1869,
  astmF2170,
  at,
  atLeast,
  atMost,
  britishGuidance,
  bs8203,
  bs8204part1,
  judgement,
  tradePractice,
} from '../sources.ts'

const annexBox = at(bs8203, 'hygrometer annex')
const dish = at(astmF1869, 'test conditions')

export const moistureTestRules = rulesOf('Moisture tests', {
  'test.heatingOffHours': [
    'How long must heating and driers be off before the test?',
    atLeast(96, 'h', annexBox),
    [0, 240],
  ],
  'test.boxHours': ['Shortest time for a hygrometer box?', atLeast(72, 'h', annexBox), [12, 720]],
  'test.boxThinHours': [
    'Shortest time for a box on 50–75 mm on a separating layer?',
    atLeast(24, 'h', annexBox),
    [12, 720],
  ],
  'test.boxPowerFloatedHours': [
    'Shortest time for a box on a power-floated surface?',
    atLeast(168, 'h', annexBox),
    [24, 2000],
  ],
  'test.settleHours': ['Time between the two last readings?', atLeast(24, 'h', annexBox), [1, 168]],
  'test.settleRh': [
    'Largest difference between the two last readings?',
    atMost(1, '% RH', judgement),
    [0, 5],
  ],
  'test.soakMinutes': [
    'Shortest time for the probe in the box or sleeve?',
    atLeast(30, 'min', annexBox),
    [5, 1440],
  ],
  'test.sleeveHours': [
    'Time from drilling to the first reading in a sleeve?',
    atLeast(72, 'h', annexBox),
    [12, 720],
  ],
  'test.sleeveDepthTolerancePercent': [
    'How far may the hole be from its depth, in % of thickness?',
    atMost(2, '% of thickness', judgement),
    [0.5, 10],
  ],
  'test.conditioningHours': [
    'How long must the room be at service conditions before a probe test?',
    atLeast(48, 'h', astmF2170),
    [0, 240],
  ],
  'test.probeCheckDays': ['Oldest check of a humidity probe?', atMost(30, 'days', astmF2170), [1, 365]],
  'test.saltRhLeast': [
    'Lowest reading of a probe above saturated salt?',
    atLeast(73, '% RH', annexBox),
    [60, 75.3],
  ],
  'test.saltRhMost': [
    'Highest reading of a probe above saturated salt?',
    atMost(77, '% RH', annexBox),
    [75, 90],
  ],
  'test.roomLeastC': ['Coldest room for a valid test?', atLeast(15, '°C', judgement), [0, 25]],
  'test.roomMostC': ['Warmest room for a valid test?', atMost(30, '°C', judgement), [18, 45]],
  'test.roomMovedK': [
    'Largest change of room temperature during the last 48 h?',
    atMost(3, 'K', judgement),
    [0.5, 15],
  ],
  'test.floorAirK': ['Largest difference between floor and air?', atMost(3, 'K', judgement), [0.5, 15]],
  'test.ageDays': ['Oldest test that still counts?', atMost(14, 'days', judgement), [1, 180]],
  'test.pointsFirst': [
    'Least test points in the first area?',
    atLeast(3, 'points', at(astmF2170, 'number of holes')),
    [1, 20],
  ],
  'test.pointsFirstAreaM2': [
    'How large is the first area?',
    atMost(100, 'm²', at(astmF2170, 'number of holes')),
    [10, 1000],
  ],
  'test.pointsNextAreaM2': [
    'One more point for each further area of?',
    atMost(100, 'm²', at(astmF2170, 'number of holes')),
    [10, 1000],
  ],
  'test.carbideCementGrams': [
    'Least sample of cement screed in the carbide vessel?',
    atLeast(20, 'g', tradePractice),
    [5, 100],
  ],
  'test.carbideCalciumSulfateGrams': [
    'Least sample of calcium sulfate screed in the carbide vessel?',
    atLeast(100, 'g', tradePractice),
    [5, 200],
  ],
  'test.ovenToleranceK': [
    'How near its temperature must the oven be?',
    atMost(5, 'K', tradePractice),
    [1, 10],
  ],
  'test.ovenCementC': ['Oven temperature for cement screed?', atMost(105, '°C', tradePractice), [60, 110]],
  'test.ovenCalciumSulfateC': [
    'Oven temperature for calcium sulfate screed?',
    atMost(40, '°C', tradePractice),
    [30, 45],
  ],
  'test.emissionHoursLeast': [
    'Shortest exposure of the calcium chloride dish?',
    atLeast(60, 'h', dish),
    [24, 96],
  ],
  'test.emissionHoursMost': [
    'Longest exposure of the calcium chloride dish?',
    atMost(72, 'h', dish),
    [48, 120],
  ],
  'test.emissionGrindHours': [
    'Time between grinding the spot and setting the dish?',
    atLeast(24, 'h', dish),
    [0, 96],
  ],
  'test.emissionAirLeastC': ['Coldest air during the dish test?', atLeast(18.4, '°C', dish), [5, 25]],
  'test.emissionAirMostC': ['Warmest air during the dish test?', atMost(29.4, '°C', dish), [20, 40]],
  'test.emissionRhLeast': ['Driest air during the dish test?', atLeast(40, '% RH', dish), [10, 60]],
  'test.emissionRhMost': ['Most humid air during the dish test?', atMost(60, '% RH', dish), [40, 90]],
})

const table4 = at(bs8204part1, 'Table 4')
const annexD = at(bs8204part1, 'Annex D and E')

export const soundnessRules = rulesOf('Soundness', {
  'soundness.A': ['Deepest indentation, category A?', atMost(3, 'mm', table4), [0.5, 10]],
  'soundness.B': ['Deepest indentation, category B?', atMost(4, 'mm', table4), [0.5, 10]],
  'soundness.C': [
    'Deepest indentation, category C, bonded or on a separating layer?',
    atMost(5, 'mm', table4),
    [0.5, 10],
  ],
  'soundness.floatingC': ['Deepest indentation, category C, floating?', atMost(2.5, 'mm', table4), [0.5, 10]],
  'soundness.weightKg': ['Falling weight?', atLeast(4, 'kg', annexD), [1, 10]],
  'soundness.floatingCWeightKg': ['Falling weight, category C, floating?', atLeast(2, 'kg', annexD), [1, 10]],
  'soundness.blows': ['Blows on one spot?', atLeast(4, 'blows', annexD), [1, 10]],
  'soundness.ageDays': ['Least age of the screed?', atLeast(14, 'days', annexD), [3, 90]],
  'soundness.pointsLeast': ['Least points in a small area?', atLeast(3, 'points', annexD), [1, 20]],
  'soundness.areaPerPointsM2': [
    'Three points for each area of?',
    atMost(20, 'm²', at(annexD, '3 per 20–25 m²')),
    [5, 100],
  ],
  'soundness.overAllowedMm': [
    'By how much may a reading exceed the limit?',
    atMost(0, 'mm', judgement),
    [0, 2],
  ],
  'soundness.overAllowedPercent': ['What share of readings may do so?', atMost(0, '%', judgement), [0, 20]],
})

const table5 = at(bs8204part1, 'Table 5 and Annex C')

export const regularityRules = rulesOf('Flatness and level', {
  'regularity.SR1': ['Largest gap under the straightedge, class SR1?', atMost(3, 'mm', table5), [0.5, 20]],
  'regularity.SR2': ['Largest gap under the straightedge, class SR2?', atMost(5, 'mm', table5), [0.5, 20]],
  'regularity.SR3': ['Largest gap under the straightedge, class SR3?', atMost(10, 'mm', table5), [0.5, 30]],
  'regularity.straightedgeM': ['Length of the straightedge?', atLeast(2, 'm', table5), [0.5, 4]],
  'regularity.dryingDays': [
    'Least days of drying before flatness is judged?',
    atLeast(28, 'days', judgement),
    [0, 90],
  ],
  'level.departureMm': ['Largest departure from the agreed level?', atMost(15, 'mm', bs8204part1), [1, 50]],
  'level.stepMm': [
    'Largest step across a joint?',
    atMost(1, 'mm', { source: 'Screed practice', provenance: 'from memory' }),
    [0, 10],
  ],
  'level.gridM': ['Distance between level points?', atMost(3, 'm', britishGuidance), [0.5, 10]],
})
