import { requireNumber } from '../errors.ts'

/**
 * Returns how much a bay grows (or shrinks, when negative) with a change of temperature.
 *
 * @param args.lengthM 0 to 1000 [m].
 * @param args.deltaC change of temperature, −100 to 100 [K].
 * @param args.alphaPerK thermal expansion, 0 to 50·10⁻⁶ [1/K]; about 12·10⁻⁶ for screeds.
 * @returns movement [mm].
 * @throws InputError when a value is out of range.
 * @source ΔL = α·ΔT·L.
 * @provenance published
 */
export function thermalMovementMm(args: { lengthM: number; deltaC: number; alphaPerK: number }): number {
  const lengthM = requireNumber('lengthM', args.lengthM, 0, 1000, 'm')
  const deltaC = requireNumber('deltaC', args.deltaC, -100, 100, 'K')
  const alphaPerK = requireNumber('alphaPerK', args.alphaPerK, 0, 50e-6, '1/K')
  return lengthM * 1000 * alphaPerK * deltaC
}

/**
 * Returns the least thickness of an edge strip that leaves a bay room to grow.
 *
 * The whole length is taken as moving to one side. Shrinkage makes room and is not counted.
 *
 * @param args.lengthM length that moves towards the strip, 0 to 1000 [m].
 * @param args.strain swelling, positive; shrinkage is negative, −0.005 to 0.005 [–].
 * @param args.deltaC rise of temperature from laying, −100 to 100 [K].
 * @param args.alphaPerK thermal expansion, 0 to 50·10⁻⁶ [1/K].
 * @param args.compressible share of its thickness by which the strip gives way, above 0 to 1 [–].
 * @returns thickness [mm], at least 0.
 * @throws InputError when a value is out of range.
 * @source (α·ΔT + swelling)·L/compressibility.
 * @provenance common practice
 */
export function edgeStripMm(args: {
  lengthM: number
  strain: number
  deltaC: number
  alphaPerK: number
  compressible: number
}): number {
  const swelling = Math.max(0, requireNumber('strain', args.strain, -0.005, 0.005))
  const compressible = requireNumber('compressible', args.compressible, 0.01, 1)
  return Math.max(0, thermalMovementMm(args) + swelling * args.lengthM * 1000) / compressible
}
