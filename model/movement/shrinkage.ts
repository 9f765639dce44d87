import { requireNumber } from '../errors.ts'
import { type CementClass, slownessOf } from '../strength/strength-gain.ts'

export interface ShrinkageQuestion {
  /** Mean strength at 28 days, 8 to 98 [N/mm²]. */
  fcmMPa: number
  cementClass: CementClass
  /** Mean humidity of the air, 0 to 100 [%]. */
  rhPercent: number
  /** 2·area/perimeter that dries: twice the thickness when one face dries, 10 to 2000 [mm]. */
  notionalSizeMm: number
  /** Age of the screed [days]. */
  ageDays: number
  /** Age at the end of curing, not above the age [days]. */
  curedDays: number
}

// αds1, αds2 of EN 1992-1-1 Annex B.2.
const classConstants: Readonly<Record<CementClass, readonly [number, number]>> = {
  S: [3, 0.13],
  N: [4, 0.12],
  R: [6, 0.11],
}
// kh of Table 3.3 against the notional size in mm.
const sizeFactors = [
  [100, 1],
  [200, 0.85],
  [300, 0.75],
  [500, 0.7],
] as const

/**
 * Returns the drying shrinkage strain that a cement screed would reach after an endless time if it were very thin.
 *
 * @param fcmMPa mean strength at 28 days, 8 to 98 [N/mm²].
 * @param rhPercent mean humidity of the air, 0 to 100 [%].
 * @returns strain, positive for shortening [–].
 * @throws InputError when a value is out of range.
 * @source EN 1992-1-1 Annex B.2 (B.11), (B.12).
 * @accuracy agrees with Table 3.2 to its two digits; the standard gives a scatter of about 30 %.
 * @provenance from memory
 */
export function basicDryingShrinkage(fcmMPa: number, cementClass: CementClass, rhPercent: number): number {
  requireNumber('fcmMPa', fcmMPa, 8, 98, 'N/mm²')
  requireNumber('rhPercent', rhPercent, 0, 100, '%')
  slownessOf(cementClass)
  const [a1, a2] = classConstants[cementClass]
  const humidityFactor = 1.55 * (1 - (rhPercent / 100) ** 3)
  return 0.85 * (220 + 110 * a1) * Math.exp((-a2 * fcmMPa) / 10) * humidityFactor * 1e-6
}

/**
 * Returns the drying shrinkage strain at an age.
 *
 * ε = βds·kh·ε0, βds = (t − ts)/((t − ts) + 0.04·√h0³).
 *
 * @returns strain, positive for shortening [–].
 * @throws InputError when a value is out of range or the curing is longer than the age.
 * @source EN 1992-1-1 3.1.4 (3.9), (3.10), Table 3.3, Annex B.2.
 * @accuracy made for concrete; cement-sand screed shrinks 0.4 to 0.8 mm/m in the end (from memory).
 * @provenance from memory
 */
export function dryingShrinkageStrain(question: ShrinkageQuestion): number {
  const { fcmMPa, cementClass, rhPercent } = question
  const sizeMm = requireNumber('notionalSizeMm', question.notionalSizeMm, 10, 2000, 'mm')
  const ageDays = requireNumber('ageDays', question.ageDays, 0, 36_500, 'days')
  const curedDays = requireNumber('curedDays', question.curedDays, 0, ageDays, 'days')
  const dryingDays = ageDays - curedDays
  const timeFactor = dryingDays / (dryingDays + 0.04 * Math.sqrt(sizeMm ** 3))
  return timeFactor * sizeFactor(sizeMm) * basicDryingShrinkage(fcmMPa, cementClass, rhPercent)
}

function sizeFactor(sizeMm: number): number {
  const next = sizeFactors.findIndex(([size]) => sizeMm <= size)
  if (next === 0) return sizeFactors[0][1]
  if (next === -1) return sizeFactors[3][1]
  const [lowSize, low] = sizeFactors[next - 1]!
  const [highSize, high] = sizeFactors[next]!
  return low + ((sizeMm - lowSize) / (highSize - lowSize)) * (high - low)
}
