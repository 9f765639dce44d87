import { InputError, requireNumber } from '../errors.ts'

export type CementClass = 'S' | 'N' | 'R'

// s of EN 1992-1-1 (3.2): slow, normal, rapid.
const slowness: Readonly<Record<CementClass, number>> = { S: 0.38, N: 0.25, R: 0.2 }

/** Returns the coefficient s of a cement class; throws when there is no such class. */
export function slownessOf(cementClass: CementClass): number {
  if (Object.hasOwn(slowness, cementClass)) return slowness[cementClass]
  throw new InputError('cementClass', `There is no cement class “${String(cementClass)}”; choose S, N or R.`)
}

/**
 * Returns the mean strength at an age as a share of that at 28 days: exp(s·[1 − √(28/t)]).
 *
 * @param equivalentAgeDays age at 20 °C, 0 to 36 500 [days]; at 0 the strength is 0.
 * @param cementClass S slow (s = 0.38), N normal (0.25), R rapid (0.20).
 * @returns share of the 28-day strength [–].
 * @throws InputError when the age is out of range or the class unknown.
 * @source EN 1992-1-1 3.1.2 (3.1) and (3.2).
 * @accuracy made for concrete older than 3 days; younger than that, and for semi-dry screed, it promises too much.
 * @provenance from memory
 */
export function strengthRatio(equivalentAgeDays: number, cementClass: CementClass): number {
  const s = slownessOf(cementClass)
  const age = requireNumber('equivalentAgeDays', equivalentAgeDays, 0, 36_500, 'days')
  return age === 0 ? 0 : Math.exp(s * (1 - Math.sqrt(28 / age)))
}

/**
 * Returns the age at 20 °C at which a mean strength is reached; the inverse of `strengthRatio`.
 *
 * @param ratio strength wanted as a share of that at 28 days, above 0 and below exp(s) [–].
 * @returns age [days at 20 °C].
 * @throws InputError when the strength is never reached.
 * @source EN 1992-1-1 3.1.2 (3.2), solved for t.
 * @provenance from memory
 */
export function ageForStrengthDays(ratio: number, cementClass: CementClass): number {
  const s = slownessOf(cementClass)
  if (!(ratio > 0 && ratio < Math.exp(s))) {
    throw new InputError('ratio', `This mix never reaches ${ratio} of its 28-day strength; ask for less.`)
  }
  return 28 / (1 - Math.log(ratio) / s) ** 2
}
