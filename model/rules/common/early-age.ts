import { rulesOf } from '../rule.ts'
import {
  above,
  at,
  atLeast,
  atMost,
  below,
  britishGuidance,
  bs8204part1,
  concreteGuidance,
  judgement,
  rememberedEn13670,
  tradePractice,
} from '../sources.ts'

export const frostRules = rulesOf('Frost', {
  'frost.screedC': [
    'How warm must the screed stay in its first days?',
    atLeast(5, '°C', bs8204part1),
    [0, 15],
  ],
  'frost.guardDays': ['For how many days must it stay that warm?', atLeast(4, 'days', bs8204part1), [1, 14]],
  'frost.belowHours': ['How long may it be colder before somebody acts?', atMost(1, 'h', judgement), [0, 24]],
  'frost.forecastC': [
    'Coldest forecast in the space to pour without protection?',
    atLeast(5, '°C', bs8204part1),
    [0, 15],
  ],
  'frost.onsetC': [
    'At what temperature is the screed taken as freezing?',
    above(0, '°C', judgement),
    [-3, 2],
  ],
  'frost.strengthMPa': [
    'Strength from which one frost does no harm?',
    atLeast(5, 'N/mm²', rememberedEn13670),
    [2, 30],
  ],
  'frost.earlyAgeFactor': [
    'Safety factor on the age that reaches this strength?',
    atLeast(2, '×', judgement),
    [1, 4],
  ],
  'frost.maturityCh': [
    'Maturity from which one frost does no harm?',
    atLeast(1100, '°C·h', judgement),
    [300, 10000],
  ],
  'frost.seriesGapHours': [
    'Longest gap between two screed temperatures before the time between is unknown?',
    atMost(3, 'h', judgement),
    [0.25, 24],
  ],
})

export const evaporationRules = rulesOf('Evaporation', {
  'evaporation.watch': ['Evaporation rate to watch?', below(0.25, 'kg/(m²·h)', judgement), [0.05, 2]],
  'evaporation.act': ['Evaporation rate to act on?', below(0.5, 'kg/(m²·h)', judgement), [0.05, 2]],
  'evaporation.stop': ['Evaporation rate to stop at?', below(1, 'kg/(m²·h)', concreteGuidance), [0.05, 3]],
  'evaporation.guardHours': [
    'For how many hours after finishing is evaporation watched?',
    atMost(24, 'h', judgement),
    [2, 168],
  ],
  'evaporation.windMs': ['Strongest draught over an open screed?', atMost(2, 'm/s', judgement), [0.2, 10]],
  'evaporation.surfaceOverAirK': [
    'How far may sun or a heater warm the surface above the air?',
    atMost(8, 'K', judgement),
    [2, 30],
  ],
  'evaporation.draughtGuardHours': [
    'For how many hours are draught and sun watched?',
    atMost(48, 'h', judgement),
    [2, 168],
  ],
})

export const cureRules = rulesOf('Curing', {
  'cure.days': ['How many days must the screed stay covered?', atLeast(7, 'days', bs8204part1), [1, 28]],
  'cure.daysLeast': [
    'Below how many covered days is it a defect?',
    atLeast(4, 'days', britishGuidance),
    [1, 28],
  ],
  'cure.coverWatchHours': [
    'How soon after finishing should the cover be on?',
    atMost(2, 'h', judgement),
    [0, 24],
  ],
  'cure.coverActHours': ['When must somebody act because it is not on?', atMost(6, 'h', judgement), [0, 48]],
  'cure.missingHours': ['When does a missing cover count as a defect?', atMost(24, 'h', judgement), [2, 96]],
  'cure.sheetOffHours': [
    'How long may the cover be off in the first days?',
    atMost(1, 'h', judgement),
    [0, 24],
  ],
  'cure.coldC': [
    'Below what temperature do hours not count as curing?',
    atLeast(5, '°C', tradePractice),
    [0, 15],
  ],
  'cure.recoverHours': [
    'Until how long open is covering again worth while?',
    atMost(72, 'h', judgement),
    [1, 240],
  ],
})

export const trafficRules = rulesOf('Traffic', {
  'traffic.footDays': [
    'From which day may people walk on it?',
    atLeast(4, 'days', britishGuidance),
    [0.5, 28],
  ],
  'traffic.footMaturityCh': ['Least maturity to walk on it?', atLeast(1100, '°C·h', judgement), [200, 20000]],
  'traffic.boardsDays': [
    'From which day may site traffic pass over boards?',
    atLeast(5, 'days', tradePractice),
    [1, 28],
  ],
  'traffic.boardsMaturityCh': [
    'Least maturity for site traffic over boards?',
    atLeast(3600, '°C·h', judgement),
    [200, 20000],
  ],
  'traffic.wheelsDays': [
    'From which day may wheels and stacks pass over boards?',
    atLeast(7, 'days', tradePractice),
    [1, 60],
  ],
  'traffic.wheelsMaturityCh': [
    'Least maturity for wheels and stacks?',
    atLeast(5000, '°C·h', judgement),
    [200, 40000],
  ],
  'traffic.pointDays': [
    'From which day may loads stand without boards?',
    atLeast(28, 'days', at(tradePractice, 'final strength at 28 days')),
    [3, 90],
  ],
  'traffic.pointMaturityCh': [
    'Least maturity for loads without boards?',
    atLeast(5000, '°C·h', judgement),
    [200, 40000],
  ],
  'traffic.pointKg': ['From what mass is a load asked about?', atMost(150, 'kg', judgement), [20, 2000]],
})
