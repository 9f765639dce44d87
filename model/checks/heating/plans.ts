import type { Limit } from '../../rules/limit.ts'
import { at, en1264part4, type Origin, onormB2242, tilingBody } from '../../rules/sources.ts'
import type { Screed } from '../../rules/words.ts'

/** A flow temperature of a plan: a number, or the highest that the heating is designed for. */
export type PlanTemperature = number | 'design'

/** Hold a temperature, or go to one by so much a day from the step before (or from `fromC`, which itself need not be held). */
export type PlanStep =
  | { kind: 'hold'; flowC: PlanTemperature; days: number | 'by thickness' }
  | { kind: 'rise' | 'fall'; fromC?: number; toC: PlanTemperature; byK: number }
  | { kind: 'cool'; belowC: number }

export interface HeatingPlan {
  name: string
  purpose: string
  screeds: readonly Screed[]
  /** Highest flow temperature that the plan itself allows [°C]. */
  mostC: number
  /** Largest rise and fall of the flow temperature; null when the plan names none [K/day]. */
  riseK: number | null
  fallK: number | null
  leastTotalDays: number | null
  steps: readonly PlanStep[]
  origin: Origin
  /** What the plan leaves to the maker, or where its source is unclear. */
  remark: string
}

const hold = (flowC: PlanTemperature, days: number | 'by thickness'): PlanStep => ({
  kind: 'hold',
  flowC,
  days,
})
const published = (source: string): Origin => ({ source, provenance: 'quoted second-hand' })

/** Published commissioning plans. A maker’s own plan goes before them all. */
export const heatingPlans = {
  H1: {
    name: 'Functional heating, EN 1264-4',
    purpose: 'Shows that the heating works. It does not dry the screed.',
    screeds: ['cement-sand', 'calcium sulfate'],
    mostC: 55,
    riseK: null,
    fallK: null,
    leastTotalDays: null,
    steps: [hold(25, 3), hold('design', 4)],
    origin: at(en1264part4, '4.2.4'),
    remark: 'Covering-readiness heating and a moisture test are still needed.',
  },
  H2: {
    name: 'Calcium sulfate, functional and drying',
    purpose: 'Heats the screed dry after it has shown that the heating works.',
    screeds: ['calcium sulfate'],
    mostC: 55,
    riseK: 10,
    fallK: 10,
    leastTotalDays: null,
    steps: [
      hold(25, 1),
      hold(35, 1),
      hold(45, 1),
      hold(55, 'by thickness'),
      hold(45, 1),
      hold(35, 1),
      hold(25, 1),
    ],
    origin: published('German flowing-screed trade plan'),
    remark: 'The days at 55 °C are 5 up to 50 mm and one more for each further centimetre or part of one.',
  },
  H3: {
    name: 'Cement, stepped to 55 °C and then until dry',
    purpose: 'Functional heating in small steps, then drying.',
    screeds: ['cement-sand'],
    mostC: 55,
    riseK: 5,
    fallK: 10,
    leastTotalDays: null,
    steps: [
      hold(25, 3),
      { kind: 'rise', toC: 55, byK: 5 },
      { kind: 'fall', toC: 25, byK: 10 },
      { kind: 'rise', toC: 55, byK: 5 },
      hold(55, 1),
    ],
    origin: published('German screed trade plan'),
    remark:
      'The last step lasts until a moisture test passes; only its first day is checked here. How to go up again is not said; 5 K a day is taken.',
  },
  H4: {
    name: 'Cement, ÖNORM B 2242-2',
    purpose: 'Slow rise to the highest temperature and slow fall, at least 11 days in all.',
    screeds: ['cement-sand'],
    mostC: 55,
    riseK: 5,
    fallK: 10,
    leastTotalDays: 11,
    steps: [
      { kind: 'rise', fromC: 15, toC: 'design', byK: 5 },
      { kind: 'fall', toC: 15, byK: 10 },
    ],
    origin: onormB2242,
    remark:
      'For vapour-tight or timber coverings cool for 3 days and heat once more to the highest temperature for 24 h.',
  },
  H5: {
    name: 'Before tiling, British trade body',
    purpose: 'Brings the screed once to its working temperature before tiles are laid.',
    screeds: ['cement-sand'],
    mostC: 45,
    riseK: 5,
    fallK: null,
    leastTotalDays: null,
    steps: [
      { kind: 'rise', fromC: 20, toC: 'design', byK: 5 },
      hold('design', 3),
      { kind: 'cool', belowC: 15 },
    ],
    origin: tilingBody,
    remark: 'After tiling wait 5, 7 or 14 days (sources differ) and heat again by 5 K a day.',
  },
  H6: {
    name: 'Before timber, British trade',
    purpose: 'Conditions a screed that has already passed its moisture test.',
    screeds: ['cement-sand', 'calcium sulfate'],
    mostC: 50,
    riseK: 10,
    fallK: 10,
    leastTotalDays: null,
    steps: [hold(20, 1), hold(30, 1), hold(40, 1), hold(50, 7), { kind: 'fall', toC: 20, byK: 10 }],
    origin: published('British timber-floor trade guidance'),
    remark: 'The surface must be at most 18 °C when timber is laid and 27 °C in use.',
  },
  H7: {
    name: 'British trade, 45 °C',
    purpose: 'Slow rise and fall with eight days at 45 °C.',
    screeds: ['cement-sand', 'calcium sulfate'],
    mostC: 45,
    riseK: 5,
    fallK: 5,
    leastTotalDays: null,
    steps: [hold(20, 1), { kind: 'rise', toC: 45, byK: 5 }, hold(45, 8), { kind: 'fall', toC: 20, byK: 5 }],
    origin: published('British underfloor-heating trade guidance'),
    remark: 'Its source says 21 days in all without saying where the other three go.',
  },
} as const satisfies Record<string, HeatingPlan>

export type HeatingPlanId = keyof typeof heatingPlans

/** The days that H2 holds its highest temperature: 5 up to 50 mm, one more for each further centimetre or part of one. */
export function holdDaysByThickness(thicknessMm: number): number {
  return 5 + Math.max(0, Math.ceil((thicknessMm - 50) / 10 - 1e-9))
}

/** A limit that comes from a plan. */
export function planLimit(
  plan: HeatingPlan,
  value: number,
  unit: string,
  operator: Limit['operator'],
): Limit {
  return { value, unit, operator, ...plan.origin }
}
