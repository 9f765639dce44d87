import { requireNumber } from '../errors.ts'

/**
 * Returns how the mass delivered to a bay compares with the mass that its volume needs.
 *
 * @param args.areaM2 0.01 to 100 000 [m²].
 * @param args.meanThicknessMm 1 to 500 [mm].
 * @param args.freshDensityKgM3 compacted, 500 to 3000 [kg/m³].
 * @param args.deliveredKg 0 to 10 000 000 [kg].
 * @returns the expected mass, and the difference in percent of it: negative when mass is missing.
 * @throws InputError when a value is not a number in range.
 * @source mass = area · thickness · density.
 * @accuracy no better than the mean thickness; the usual tolerance is 12 %.
 * @provenance our judgement
 */
export function massBalance(args: {
  areaM2: number
  meanThicknessMm: number
  freshDensityKgM3: number
  deliveredKg: number
}): { expectedKg: number; differencePercent: number } {
  const areaM2 = requireNumber('areaM2', args.areaM2, 0.01, 100_000, 'm²')
  const thicknessMm = requireNumber('meanThicknessMm', args.meanThicknessMm, 1, 500, 'mm')
  const density = requireNumber('freshDensityKgM3', args.freshDensityKgM3, 500, 3000, 'kg/m³')
  const deliveredKg = requireNumber('deliveredKg', args.deliveredKg, 0, 10_000_000, 'kg')
  const expectedKg = (areaM2 * thicknessMm * density) / 1000
  return { expectedKg, differencePercent: (100 * (deliveredKg - expectedKg)) / expectedKg }
}
