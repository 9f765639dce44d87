import { InputError, requireNumber } from '../../errors.ts'
import { type EffectiveRules, rulesIn } from '../../rules/effective.ts'
import { type Area, m2PerFt2, oneAreaM2 } from './emission.ts'

/**
 * Returns how many test points an area needs: three for the first 1000 ft² or 100 m², one more for each further one or part.
 *
 * Given in ft² the rule of the standard holds; given in m², the areas of the rules in force (100 m² by default).
 *
 * @param args.areaM2 0.01 to 1 000 000, or args.areaFt2 [m² or ft²].
 * @throws InputError when the area is out of range, or not exactly one is given.
 * @source ASTM F2170; that a part counts as a whole is our reading of “each additional”.
 * @provenance quoted second-hand
 */
export function probeCount(args: Area & { rules?: EffectiveRules }): number {
  const { limits } = args.rules ?? rulesIn('british')
  const areaM2 = oneAreaM2(args, 0.01, 1_000_000)
  const inFeet = args.areaFt2 !== undefined
  const area = inFeet ? areaM2 / m2PerFt2 : areaM2
  const first = inFeet ? 1000 : limits['test.pointsFirstAreaM2'].value
  const next = inFeet ? 1000 : limits['test.pointsNextAreaM2'].value
  const further = Math.max(0, Math.ceil((area - first) / next - 1e-9))
  return limits['test.pointsFirst'].value + further
}

/**
 * Returns how deep the hole of a humidity probe must be: 40 % of the thickness drying from one face, 20 % from two.
 *
 * @param args.thicknessMm 10 to 1000 [mm].
 * @param args.faces faces that dry, 1 or 2.
 * @returns depth [mm].
 * @throws InputError when a value is out of range.
 * @source ASTM F2170.
 * @provenance quoted second-hand
 */
export function probeDepthMm({ thicknessMm, faces }: { thicknessMm: number; faces: 1 | 2 }): number {
  requireNumber('thicknessMm', thicknessMm, 10, 1000, 'mm')
  if (faces !== 1 && faces !== 2)
    throw new InputError('faces', `A screed dries from 1 or 2 faces, not ${String(faces)}.`)
  return thicknessMm * (faces === 1 ? 0.4 : 0.2)
}
