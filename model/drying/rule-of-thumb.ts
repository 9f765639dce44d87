import { InputError, requireNumber } from '../errors.ts'

/**
 * Returns the days of drying that the trade's rule allows: one day a millimetre up to the break, two beyond it.
 * Counted from the end of curing, at about 20 °C and at most 65 % RH. For planning only: never acceptance.
 * Drying time grows about with the square of thickness, so the rule is unsafe above about 75 mm.
 * @param args.thicknessMm 10–300 [mm]
 * @param args.breakMm 50 (cement-sand, attributed to BS 8204-1) or 40 (calcium sulfate, attributed to BS 8204-7; tile trade)
 * @errors InputError naming the field
 * @source attributed to BS 8204; BS 5385-3:2014 one day a millimetre to 40 mm
 * @provenance quoted second-hand
 */
export function daysByRule({ thicknessMm, breakMm }: { thicknessMm: number; breakMm: 40 | 50 }): number {
  requireNumber('thicknessMm', thicknessMm, 10, 300, 'mm')
  if (breakMm !== 40 && breakMm !== 50)
    throw new InputError('breakMm', `breakMm is ${JSON.stringify(breakMm)}; it must be 40 or 50.`)
  return Math.min(thicknessMm, breakMm) + 2 * Math.max(0, thicknessMm - breakMm)
}
