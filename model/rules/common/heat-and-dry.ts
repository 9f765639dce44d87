import { rulesOf } from '../rule.ts'
import {
  above,
  acclimatisation,
  at,
  atLeast,
  atMost,
  below,
  bs5385part3,
  bs8203,
  bs8204part1,
  coatingGuidance,
  en1264,
  en1264part4,
  judgement,
  tradePractice,
} from '../sources.ts'

const functionalHeating = at(en1264part4, '4.2.4')

export const heatRules = rulesOf('Heating', {
  'heat.firstCementDays': [
    'Least age of a cement screed before first heat?',
    atLeast(21, 'days', functionalHeating),
    [3, 90],
  ],
  'heat.firstCalciumSulfateDays': [
    'Least age of a calcium sulfate screed before first heat?',
    atLeast(7, 'days', functionalHeating),
    [1, 60],
  ],
  'heat.functionalC': [
    'Flow temperature of the first heating days?',
    atMost(25, '°C', functionalHeating),
    [15, 35],
  ],
  'heat.functionalDays': [
    'How many days at that flow temperature?',
    atLeast(3, 'days', functionalHeating),
    [1, 14],
  ],
  'heat.maxC': ['Highest flow temperature?', atMost(55, '°C', functionalHeating), [25, 65]],
  'heat.maxDays': [
    'How many days at the highest design temperature?',
    atLeast(4, 'days', functionalHeating),
    [1, 30],
  ],
  'heat.keepWarmMostC': [
    'Warmest flow allowed to keep frost out before first heat?',
    atMost(20, '°C', en1264part4),
    [5, 30],
  ],
  'heat.riseWatchK': [
    'Daily rise of the flow temperature to watch?',
    atMost(5, 'K/day', tradePractice),
    [1, 20],
  ],
  'heat.riseActK': ['Daily rise of the flow temperature to act on?', atMost(10, 'K/day', judgement), [1, 30]],
  'heat.fallWatchK': [
    'Daily fall of the flow temperature to watch?',
    atMost(10, 'K/day', tradePractice),
    [1, 30],
  ],
  'heat.zoneDifferenceK': [
    'Largest difference between joined heating zones?',
    atMost(8, 'K', judgement),
    [1, 30],
  ],
  'heat.logGapHours': ['Longest gap in the heating log?', atMost(26, 'h', judgement), [2, 72]],
  'heat.stepToleranceK': [
    'How near its step must the flow temperature be?',
    atMost(2, 'K', judgement),
    [0.5, 5],
  ],
  'heat.stepSlackHours': ['How many hours may a step be short?', atMost(2, 'h', judgement), [0, 12]],
  'heat.surfaceMostC': ['Warmest floor surface in use?', atMost(29, '°C', en1264), [20, 40]],
  'heat.surfaceEdgeMostC': [
    'Warmest floor surface in edge strips without people?',
    atMost(35, '°C', en1264),
    [20, 45],
  ],
  'heat.surfaceBathMostC': ['Warmest floor surface in a bathroom?', atMost(33, '°C', en1264), [20, 45]],
  'heat.adhesiveMostC': [
    'Warmest adhesive line of a resilient covering?',
    atMost(27, '°C', bs8203),
    [20, 40],
  ],
})

export const dryingRules = rulesOf('Drying', {
  'drying.breakCementMm': [
    'Up to what thickness does a cement screed dry at one day per mm?',
    atMost(50, 'mm', bs8204part1),
    [40, 50],
  ],
  'drying.breakCalciumSulfateMm': [
    'Up to what thickness does a calcium sulfate screed dry at one day per mm?',
    atMost(40, 'mm', bs5385part3),
    [40, 50],
  ],
  'drying.forcedStopDays': [
    'Until which day after curing is forced drying stopped?',
    atLeast(7, 'days', judgement),
    [0, 60],
  ],
  'drying.forcedWatchDays': [
    'Until which day is forced drying watched?',
    atLeast(28, 'days', judgement),
    [0, 90],
  ],
  'drying.forcedRhLeast': [
    'Driest air while forced drying is watched?',
    atLeast(35, '% RH', judgement),
    [10, 70],
  ],
  'drying.forcedAirMostC': [
    'Warmest air while forced drying is watched?',
    atMost(25, '°C', judgement),
    [15, 50],
  ],
  'drying.stallRhPerWeek': [
    'Slowest drying before it counts as stalled?',
    atLeast(0.3, '% RH/week', judgement),
    [0.05, 5],
  ],
  'drying.rewetRh': [
    'Rise of humidity at one point that means re-wetting?',
    atMost(3, '% RH', judgement),
    [0.5, 15],
  ],
  'drying.rewetCarbide': [
    'Rise of the carbide figure at one point that means re-wetting?',
    atMost(0.3, '% CM', judgement),
    [0.05, 2],
  ],
  'drying.airC': ['Air temperature that drying rules assume?', atLeast(20, '°C', bs5385part3), [5, 30]],
  'drying.rhMost': ['Air humidity that drying rules assume?', atMost(65, '% RH', bs5385part3), [30, 80]],
  'drying.condensationK': [
    'How far above the dew point must a drying surface stay?',
    atLeast(1, 'K', judgement),
    [0, 5],
  ],
})

export const climateRules = rulesOf('Climate for the covering', {
  'climate.dewMarginK': [
    'How far above the dew point must the surface be to coat or glue?',
    atLeast(3, 'K', coatingGuidance),
    [0, 10],
  ],
  'climate.rhMost': ['Most humid air to lay a covering in?', below(85, '% RH', coatingGuidance), [40, 95]],
  'climate.surfaceLeastC': [
    'Coldest surface to lay a covering on?',
    atLeast(10, '°C', acclimatisation),
    [0, 25],
  ],
  'climate.surfaceMostC': ['Warmest surface to lay a covering on?', atMost(27, '°C', bs8203), [15, 40]],
  'climate.airLeastC': ['Coldest air to lay a covering in?', atLeast(18, '°C', acclimatisation), [0, 25]],
  'climate.airMostC': ['Warmest air to lay a covering in?', atMost(27, '°C', acclimatisation), [15, 40]],
  'climate.tileSurfaceLeastC': ['Coldest surface to lay tiles on?', above(5, '°C', tradePractice), [0, 20]],
})
