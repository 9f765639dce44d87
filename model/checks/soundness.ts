import { InputError, requireNumber } from '../errors.ts'
import { type EffectiveRules, rulesIn } from '../rules/effective.ts'
import { type CheckResult, type Finding, keepsLimit, type Limit } from '../rules/limit.ts'
import type { Construction } from '../rules/words.ts'
import { withValue } from './judge.ts'

export type SoundnessCategory = 'A' | 'B' | 'C'

export interface SoundnessTest {
  /** A heaviest traffic, B heavy foot and trolleys, C light. */
  category: SoundnessCategory
  construction: Construction
  /** 4, or 2 for a floating screed of category C [kg]. */
  weightKg: number
  /** Blows on one spot; 4. */
  blows: number
  /** Age of the screed at the test, 0 to 36 500 [days]. */
  ageDays: number
  /** Depth after the last blow, read to 0.1, 0 to 100 [mm]. */
  indentationsMm: readonly number[]
  /** Area that the points stand for; without it the number of points is not judged [m²]. */
  areaM2?: number
  /** British with every choice at its default, unless given. */
  rules?: EffectiveRules
}

/** The foot of the drop-weight apparatus: 25.23 mm across, 500 mm². */
export const footDiameterMm = 25.23

/** Returns the deepest indentation that a category allows. */
export function soundnessLimit(
  category: SoundnessCategory,
  construction: Construction,
  rules: EffectiveRules,
): Limit {
  if (!['A', 'B', 'C'].includes(category)) {
    throw new InputError('category', `There is no category “${String(category)}”; choose A, B or C.`)
  }
  if (category === 'C' && construction === 'floating') return rules.limits['soundness.floatingC']
  return rules.limits[`soundness.${category}`]
}

/**
 * Returns how many drop-weight points an area needs.
 *
 * @param args.areaM2 0.01 to 100 000 [m²].
 * @source BS 8204-1 Annex D: at least three, and three for each 20 to 25 m².
 * @provenance quoted second-hand
 */
export function soundnessPoints({
  areaM2,
  rules = rulesIn('british'),
}: {
  areaM2: number
  rules?: EffectiveRules
}): number {
  requireNumber('areaM2', areaM2, 0.01, 100_000, 'm²')
  const { 'soundness.pointsLeast': least, 'soundness.areaPerPointsM2': each } = rules.limits
  return Math.max(least.value, Math.ceil((least.value * areaM2) / each.value - 1e-9))
}

/**
 * Judges a drop-weight test: first whether it was done as its method demands, then its indentations.
 *
 * A limit is the greatest value that passes: 3.0 mm passes category A, 3.1 mm fails.
 *
 * @returns `invalid` with a wrong weight, a wrong number of blows or too young a screed; `not known` without readings or
 * with fewer points than the area needs.
 * @throws InputError when a value is out of range or a word unknown.
 * @source BS 8204-1:2003+A1:2009 Table 4, Annex D (bonded, unbonded) and E (floating).
 * @provenance quoted second-hand
 */
export function checkSoundness(test: SoundnessTest): CheckResult {
  const rules = test.rules ?? rulesIn('british')
  const { limits } = rules
  const limit = soundnessLimit(test.category, test.construction, rules)
  const light = test.category === 'C' && test.construction === 'floating'
  const weight = limits[light ? 'soundness.floatingCWeightKg' : 'soundness.weightKg']
  const weightKg = requireNumber('weightKg', test.weightKg, 0.1, 50, 'kg')
  const blows = requireNumber('blows', test.blows, 1, 100, 'blows')
  const ageDays = requireNumber('ageDays', test.ageDays, 0, 36_500, 'days')
  for (const [i, mm] of test.indentationsMm.entries()) requireNumber(`indentationsMm[${i}]`, mm, 0, 100, 'mm')

  const carriedOut: Finding[] = [
    { what: 'Falling weight', value: weightKg, limit: weight },
    { what: 'Blows on one spot', value: blows, limit: limits['soundness.blows'] },
    { what: 'Age of the screed', value: ageDays, limit: limits['soundness.ageDays'] },
  ]
  const asDemanded =
    weightKg === weight.value &&
    blows === limits['soundness.blows'].value &&
    keepsLimit(ageDays, limits['soundness.ageDays'])
  const indentations = test.indentationsMm.map((value, i) => ({ what: `Indentation ${i + 1}`, value, limit }))
  const findings: Finding[] = [...carriedOut, ...indentations]
  if (test.areaM2 !== undefined) {
    const needed = withValue(limits['soundness.pointsLeast'], soundnessPoints({ areaM2: test.areaM2, rules }))
    findings.push({ what: 'Points', value: test.indentationsMm.length, limit: needed })
  }
  if (!asDemanded) return { verdict: 'invalid', findings }
  if (tooDeep(test.indentationsMm, limit, rules)) return { verdict: 'fail', findings }
  const points = findings.at(-1)
  const tooFew =
    test.areaM2 !== undefined && points?.limit && !keepsLimit(test.indentationsMm.length, points.limit)
  return { verdict: test.indentationsMm.length === 0 || tooFew ? 'not known' : 'pass', findings }
}

/** True when a reading exceeds the limit by more than the scheme allows, or more readings exceed it than it allows. */
function tooDeep(indentationsMm: readonly number[], limit: Limit, { limits }: EffectiveRules): boolean {
  const over = indentationsMm.filter((mm) => !keepsLimit(mm, limit))
  const allowedOver = withValue(limit, limit.value + limits['soundness.overAllowedMm'].value)
  const allowedCount = (limits['soundness.overAllowedPercent'].value / 100) * indentationsMm.length
  return over.length > allowedCount || over.some((mm) => !keepsLimit(mm, allowedOver))
}
