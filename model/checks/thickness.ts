import { InputError, requireNumber } from '../errors.ts'
import type { RuleId } from '../rules/common/index.ts'
import { type EffectiveRules, rulesIn } from '../rules/effective.ts'
import type { Finding, Limit } from '../rules/limit.ts'
import type { Construction, Screed } from '../rules/words.ts'
import { breaks, type CautionedResult, judge } from './judge.ts'

/** Light: houses and similar; other: heavier. Counts for floating screeds only. */
export type Loading = 'light' | 'other'

export interface ThicknessQuestion {
  screed: Screed
  construction: Construction
  loading: Loading
  heated: boolean
  /** Measured thicknesses, 1 to 500 [mm]; none means nobody measured. */
  measuredMm: readonly number[]
  /** Least cover over heating pipes, 0 to 500 [mm]; needed when heated. */
  pipeCoverMm?: number | null
  /** Least cover over service pipes and conduits, insulation included, 0 to 500 [mm]. */
  serviceCoverMm?: number | null
  /** The maker's least thickness; needed for a fast-drying screed, and holds instead of the rule when given [mm]. */
  makerLeastMm?: number | null
  /** How many lifts were laid; counts for the remark on thick cement screed. */
  lifts?: number | null
  /** British with every choice at its default, unless given. */
  rules?: EffectiveRules
}

/** Returns the least thickness at any point, or null when only the maker can say. */
export function leastThickness(
  { screed, construction, loading }: Pick<ThicknessQuestion, 'screed' | 'construction' | 'loading'>,
  rules: EffectiveRules,
): Limit | null {
  if (screed === 'fast drying') return null
  const material = screed === 'calcium sulfate' ? 'calciumSulfate' : 'cement'
  const placesOf: Readonly<Record<Construction, RuleId>> = {
    bonded: `thickness.${material}.bonded`,
    unbonded: `thickness.${material}.unbonded`,
    floating:
      loading === 'light' ? `thickness.${material}.floatingLight` : `thickness.${material}.floatingHeavy`,
  }
  if (!Object.hasOwn(placesOf, construction)) {
    throw new InputError(
      'construction',
      `There is no construction “${String(construction)}”; choose bonded, unbonded or floating.`,
    )
  }
  if (loading !== 'light' && loading !== 'other') {
    throw new InputError('loading', `There is no loading “${String(loading)}”; choose light or other.`)
  }
  return rules.limits[placesOf[construction]]
}

/**
 * Compares measured thicknesses and pipe cover with the least that the rules allow at any point.
 *
 * Cautions: bonded cement screed so thick that it may come loose; cement screed over 50 mm not known to be laid in two lifts.
 *
 * @returns `not known` when nobody measured, when a heated bay has no pipe cover, or when only the maker could say.
 * @throws InputError when a value is out of range or a word unknown.
 * @source thickness rules in force (BS 8204-1 and -7, EN 1264-4, DIN 18560-2).
 * @provenance as each limit says
 */
export function checkThickness(question: ThicknessQuestion): CautionedResult {
  const rules = question.rules ?? rulesIn('british')
  for (const [i, mm] of question.measuredMm.entries()) requireNumber(`measuredMm[${i}]`, mm, 1, 500, 'mm')
  const { measuredMm } = question
  const least = measuredMm.length === 0 ? null : Math.min(...measuredMm)
  const findings: Finding[] = [
    { what: 'Least thickness measured', value: least, limit: thicknessLimit(question, rules) },
  ]
  if (question.heated) {
    const limit = rules.limits['thickness.coverOverHeatingPipe']
    findings.push({
      what: 'Cover over heating pipes',
      value: optionalMm('pipeCoverMm', question.pipeCoverMm),
      limit,
    })
  }
  const serviceCover = optionalMm('serviceCoverMm', question.serviceCoverMm)
  if (serviceCover !== null) {
    findings.push({
      what: 'Cover over service pipes',
      value: serviceCover,
      limit: rules.limits['thickness.coverOverService'],
    })
  }
  const verdict = judge(findings)
  const noLimit = findings[0]?.limit === null
  return {
    verdict: noLimit && verdict === 'pass' ? 'not known' : verdict,
    findings,
    cautions: thicknessCautions(question, rules).filter(breaks),
  }
}

function thicknessLimit(question: ThicknessQuestion, rules: EffectiveRules): Limit | null {
  const makerMm = optionalMm('makerLeastMm', question.makerLeastMm)
  const ruled = leastThickness(question, rules)
  if (makerMm === null) return ruled
  return {
    value: makerMm,
    unit: 'mm',
    operator: '>=',
    source: 'The maker’s data sheet',
    provenance: 'company rule',
  }
}

function thicknessCautions(
  { screed, construction, measuredMm, lifts }: ThicknessQuestion,
  { limits }: EffectiveRules,
): Finding[] {
  if (measuredMm.length === 0 || screed === 'calcium sulfate') return []
  const greatest = Math.max(...measuredMm)
  const cautions: Finding[] = []
  if (construction === 'bonded') {
    cautions.push({
      what: 'Thickest bonded point, which may come loose',
      value: greatest,
      limit: limits['thickness.cement.bondedUpper'],
    })
  }
  if (lifts === undefined || lifts === null || lifts < 2) {
    cautions.push({
      what: 'Thickest point laid in one lift',
      value: greatest,
      limit: limits['thickness.singleLift'],
    })
  }
  return cautions
}

function optionalMm(field: string, value: number | null | undefined): number | null {
  return value === undefined || value === null ? null : requireNumber(field, value, 0, 500, 'mm')
}
