import { requireNumber } from '../errors.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import { type CheckResult, keepsLimit } from '../rules/limit.ts'

export interface BatchMasses {
  /** 0.1 to 10 000 [kg]. */
  cementKg: number
  /** Sand as weighed, with its water, 0.1 to 50 000 [kg]. */
  dampSandKg: number
  /** Water in the sand, in percent of the DRY sand, 0 to 30 [%]. */
  sandMoisturePercent: number
  /** 0 to 10 000 [kg]. */
  addedWaterKg: number
  /** Water in the admixture, 0 by default, 0 to 1000 [kg]. */
  admixtureWaterKg?: number
}

export interface Proportions {
  drySandKg: number
  /** Dry sand for one part of cement, by mass. */
  sandPerCement: number
  /** All water for one part of cement, by mass. */
  waterCement: number
}

/**
 * Returns the proportions of a batch by mass, the water of the damp sand counted as water.
 *
 * dry sand = damp sand/(1 + moisture/100).
 *
 * @throws InputError when a mass is not a number in range.
 * @source moisture content on dry mass, as EN 1097-5.
 * @provenance common practice
 */
export function proportionsOf(batch: BatchMasses): Proportions {
  const cementKg = requireNumber('cementKg', batch.cementKg, 0.1, 10_000, 'kg')
  const dampSandKg = requireNumber('dampSandKg', batch.dampSandKg, 0.1, 50_000, 'kg')
  const moisture = requireNumber('sandMoisturePercent', batch.sandMoisturePercent, 0, 30, '%')
  const addedWaterKg = requireNumber('addedWaterKg', batch.addedWaterKg, 0, 10_000, 'kg')
  const admixtureWaterKg = requireNumber('admixtureWaterKg', batch.admixtureWaterKg ?? 0, 0, 1000, 'kg')
  const drySandKg = dampSandKg / (1 + moisture / 100)
  const waterKg = dampSandKg - drySandKg + addedWaterKg + admixtureWaterKg
  return { drySandKg, sandPerCement: drySandKg / cementKg, waterCement: waterKg / cementKg }
}

/**
 * Compares proportions with the mix range of the rules; a missing proportion is not known.
 *
 * @param proportions from `proportionsOf`; a value that is unknown is left out.
 * @param rules the rules in force.
 */
export function checkProportions(proportions: Partial<Proportions>, rules: EffectiveRules): CheckResult {
  const { limits } = rules
  const lines = [
    ['Sand for one part of cement', proportions.sandPerCement, limits['mix.sandPerCementLeast']],
    ['Sand for one part of cement', proportions.sandPerCement, limits['mix.sandPerCementMost']],
    ['Water for one part of cement', proportions.waterCement, limits['mix.waterCementLeast']],
    ['Water for one part of cement', proportions.waterCement, limits['mix.waterCementMost']],
  ] as const
  const findings = lines.map(([what, value, limit]) => ({ what, value: value ?? null, limit }))
  if (lines.some(([, value, limit]) => value !== undefined && !keepsLimit(value, limit)))
    return { verdict: 'fail', findings }
  return { verdict: lines.some(([, value]) => value === undefined) ? 'not known' : 'pass', findings }
}
