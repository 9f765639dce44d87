import { InputError, requireNumber } from '../../errors.ts'

export const gramsPerPound = 453.59237
export const m2PerFt2 = 0.09290304
/** 1 lb/(1000 ft²·24 h) in g/(m²·24 h): 4.8824. */
export const gramsPerM2OfOnePound = gramsPerPound / (1000 * m2PerFt2)

export type Area = { areaM2: number; areaFt2?: undefined } | { areaFt2: number; areaM2?: undefined }

/**
 * Returns the vapour emission rate that a calcium chloride dish shows.
 *
 * The exposed area differs from kit to kit (0.445 to 0.486 ft²) and is therefore an argument.
 *
 * @param args.gainG gain of the dish, 0 to 200 [g].
 * @param args.hours exposure, 1 to 1000 [h].
 * @param args.areaM2 exposed area, or args.areaFt2 [m² or ft²].
 * @returns rate in both units.
 * @throws InputError when a value is out of range, or not exactly one area is given.
 * @source ASTM F1869: 24000·Δm/(453.59·A·T), A in ft², T in h.
 * @accuracy within 0.01 lb of three worked examples.
 * @provenance quoted second-hand
 */
export function emissionRate(args: { gainG: number; hours: number } & Area): {
  lbPer1000ft2Per24h: number
  gPerM2Per24h: number
} {
  const gainG = requireNumber('gainG', args.gainG, 0, 200, 'g')
  const hours = requireNumber('hours', args.hours, 1, 1000, 'h')
  const gPerM2Per24h = (gainG * 24) / (hours * oneAreaM2(args, 0.001, 10))
  return { gPerM2Per24h, lbPer1000ft2Per24h: gPerM2Per24h / gramsPerM2OfOnePound }
}

/** Returns the one area that is given, in m². */
export function oneAreaM2({ areaM2, areaFt2 }: Area, least: number, most: number): number {
  if ((areaM2 === undefined) === (areaFt2 === undefined)) {
    throw new InputError(
      'areaM2',
      'Give the area either in m² (areaM2) or in ft² (areaFt2), not both and not neither.',
    )
  }
  if (areaM2 !== undefined) return requireNumber('areaM2', areaM2, least, most, 'm²')
  return requireNumber('areaFt2', areaFt2, least / m2PerFt2, most / m2PerFt2, 'ft²') * m2PerFt2
}
