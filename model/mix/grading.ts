import { InputError, requireLength, requireNumber } from '../errors.ts'
import { type CheckResult, keepsLimit, type Limit } from '../rules/limit.ts'

/** What passes a sieve, in percent of the dry sample. */
export interface Passing {
  sieveMm: number
  percent: number
}

/** The least and most that may pass a sieve; typed in from the project's own copy of the standard. */
export interface BandSieve {
  sieveMm: number
  least: number
  most: number
}

const finenessSievesMm = [4, 2, 1, 0.5, 0.25, 0.125] as const

/**
 * Returns the fineness modulus: the sum of what is retained on the six sieves from 4 to 0.125 mm, in percent, over 100.
 *
 * @param passing percent passing; all six sieves are needed, others are ignored.
 * @returns fineness modulus [–]; higher is coarser.
 * @throws InputError when a sieve is missing or twice there, a value is not 0 to 100 %, or more passes a finer sieve.
 * @source EN 12620 Annex B.
 * @provenance quoted second-hand
 */
export function finenessModulus(passing: readonly Passing[]): number {
  const bySieve = checkedPassing(passing)
  const retained = finenessSievesMm.map((sieveMm) => {
    const percent = bySieve.get(sieveMm)
    if (percent === undefined) {
      throw new InputError(
        'passing',
        `The ${sieveMm} mm sieve is missing; the fineness modulus needs ${finenessSievesMm.join(', ')} mm.`,
      )
    }
    return 100 - percent
  })
  return retained.reduce((sum, percent) => sum + percent, 0) / 100
}

export type Coarseness = 'coarse' | 'medium' | 'fine'
const coarsenessAtHalfMm: Readonly<Record<Coarseness, readonly [number, number]>> = {
  coarse: [5, 45],
  medium: [30, 70],
  fine: [55, 100],
}

/**
 * Returns every description that fits what passes the 0.5 mm sieve; the ranges overlap, and none may fit.
 *
 * @param passingHalfMm percent passing 0.500 mm, 0 to 100 [%].
 * @throws InputError when the value is not a number in range.
 * @source EN 12620 Annex B: CP 5–45, MP 30–70, FP 55–100 %.
 * @provenance quoted second-hand
 */
export function coarsenessOf(passingHalfMm: number): Coarseness[] {
  requireNumber('passingHalfMm', passingHalfMm, 0, 100, '%')
  const names = Object.keys(coarsenessAtHalfMm) as Coarseness[]
  return names.filter((name) => {
    const [least, most] = coarsenessAtHalfMm[name]
    return passingHalfMm >= least && passingHalfMm <= most
  })
}

/**
 * Compares a grading with a band of limits, sieve by sieve; a sieve of the band without a result is not known.
 *
 * @param passing percent passing.
 * @param band least and most percent passing for each sieve, with the document it was typed from.
 * @returns two findings a sieve: at least and at most.
 * @throws InputError when a value is not 0 to 100 %, the band is empty, or its least exceeds its most.
 * @provenance as the band says; it is the project's own table
 */
export function gradeBand(
  passing: readonly Passing[],
  band: { sieves: readonly BandSieve[]; source: string; edition?: string; clause?: string },
): CheckResult {
  requireLength('band.sieves', band.sieves, 1)
  const bySieve = checkedPassing(passing)
  const { source, edition, clause } = band
  const origin = {
    source,
    edition,
    clause,
    provenance: 'company rule',
    reason: 'Typed in for this project.',
  } as const
  const findings = band.sieves.flatMap(({ sieveMm, least, most }, i) => {
    requireNumber(`band.sieves[${i}].least`, least, 0, 100, '%')
    requireNumber(`band.sieves[${i}].most`, most, least, 100, '%')
    const value = bySieve.get(sieveMm) ?? null
    const limitOf = (operator: '>=' | '<=', percent: number): Limit => ({
      value: percent,
      unit: '%',
      operator,
      ...origin,
    })
    const what = `Passing ${sieveMm} mm`
    return [
      { what, value, limit: limitOf('>=', least) },
      { what, value, limit: limitOf('<=', most) },
    ]
  })
  if (findings.some(({ value, limit }) => value !== null && !keepsLimit(value, limit)))
    return { verdict: 'fail', findings }
  return { verdict: findings.some(({ value }) => value === null) ? 'not known' : 'pass', findings }
}

function checkedPassing(passing: readonly Passing[]): Map<number, number> {
  const bySieve = new Map<number, number>()
  for (const [i, { sieveMm, percent }] of passing.entries()) {
    requireNumber(`passing[${i}].sieveMm`, sieveMm, 0.01, 125, 'mm')
    requireNumber(`passing[${i}].percent`, percent, 0, 100, '%')
    if (bySieve.has(sieveMm))
      throw new InputError(`passing[${i}].sieveMm`, `The ${sieveMm} mm sieve is listed twice.`)
    bySieve.set(sieveMm, percent)
  }
  const fromFine = [...bySieve].sort(([a], [b]) => a - b)
  for (let i = 1; i < fromFine.length; i++) {
    if (fromFine[i]![1] < fromFine[i - 1]![1]) {
      throw new InputError(
        'passing',
        `More passes ${fromFine[i - 1]![0]} mm than ${fromFine[i]![0]} mm; a finer sieve cannot let more through.`,
      )
    }
  }
  return bySieve
}
