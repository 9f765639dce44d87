import { requireNumber } from '../errors.ts'

/**
 * Returns the volume to mix for an area and the whole batches that make it.
 *
 * @param args.areaM2 0.01 to 100 000 [m²].
 * @param args.thicknessMm mean thickness, 1 to 500 [mm].
 * @param args.batchVolumeL compacted volume that one batch yields, 1 to 20 000 [L].
 * @param args.wastePercent 0 to 100 [%].
 * @throws InputError when a value is not a number in range.
 * @source volume = area · thickness · (1 + waste/100).
 * @provenance published
 */
export function batchesFor(args: {
  areaM2: number
  thicknessMm: number
  batchVolumeL: number
  wastePercent: number
}): { volumeM3: number; batches: number } {
  const areaM2 = requireNumber('areaM2', args.areaM2, 0.01, 100_000, 'm²')
  const thicknessMm = requireNumber('thicknessMm', args.thicknessMm, 1, 500, 'mm')
  const batchVolumeL = requireNumber('batchVolumeL', args.batchVolumeL, 1, 20_000, 'L')
  const waste = requireNumber('wastePercent', args.wastePercent, 0, 100, '%')
  const volumeM3 = (areaM2 * thicknessMm * (1 + waste / 100)) / 1000
  // A volume that is a whole number of batches but for rounding must not ask for one more.
  return { volumeM3, batches: Math.ceil((volumeM3 * 1000) / batchVolumeL - 1e-9) }
}

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
