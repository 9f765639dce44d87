import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '#model/errors.ts'
import {
  checkProportions,
  coarsenessOf,
  finenessModulus,
  gradeBand,
  massBalance,
  proportionsOf,
  whyProportions,
} from '#model/mix/index.ts'
import { effectiveRules } from '#model/rules/index.ts'

const rules = effectiveRules('british')
const batch = { cementKg: 50, dampSandKg: 200, sandMoisturePercent: 6, addedWaterKg: 10 }

describe('MIX: proportions', () => {
  test('MIX-1: water is neither made nor lost: dry sand and all water are what was weighed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1000, noNaN: true }),
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        (cementKg, dampSandKg, sandMoisturePercent, addedWaterKg) => {
          const { drySandKg, sandPerCement, waterCement } = proportionsOf({
            cementKg,
            dampSandKg,
            sandMoisturePercent,
            addedWaterKg,
          })
          const total = drySandKg + waterCement * cementKg
          return (
            Math.abs(total - dampSandKg - addedWaterKg) < 1e-9 * (1 + total) &&
            Math.abs(sandPerCement * cementKg - drySandKg) < 1e-9 * (1 + drySandKg)
          )
        },
      ),
    )
  })
  test('MIX-2: the mix range 1:3 to 1:4.5 (BS 8204-1, quoted second-hand): 2.9 and 4.6 fail, 3 and 4.5 pass', () => {
    const verdictOf = (sandPerCement: number) =>
      checkProportions({ sandPerCement, waterCement: 0.45 }, rules).verdict
    expect([2.9, 3, 4.5, 4.6].map(verdictOf)).toEqual(['fail', 'pass', 'pass', 'fail'])
  })
  test('MIX-3: a batch whose sand moisture was never measured is not known', () => {
    expect(checkProportions({ sandPerCement: 3.8 }, rules).verdict).toBe('not known')
  })
  test('MIX-4: water in the admixture counts', () => {
    expect(
      proportionsOf({ ...batch, admixtureWaterKg: 0.5 }).waterCement - proportionsOf(batch).waterCement,
    ).toBeCloseTo(0.01, 12)
  })
  test.each(['cementKg', 'dampSandKg', 'sandMoisturePercent', 'addedWaterKg'] as const)(
    'MIX-5: %s that is not a number is refused by name',
    (field) => {
      expect(() => proportionsOf({ ...batch, [field]: Number.NaN })).toThrow(
        expect.objectContaining({ field }),
      )
    },
  )
  test('MIX-6: the whys carry the numbers of the batch', () => {
    const whys = whyProportions(batch)
    expect(whys.sandPerCement.value).toBeCloseTo(3.774, 3)
    expect(whys.waterCement.value).toBeCloseTo(0.426, 3)
    expect(whys.waterCement.inputs.map(({ name }) => name)).toContain('Moisture of the sand, on its dry mass')
  })
})

describe('MIX: quantities', () => {
  test('MIX-10: mass too much is positive, mass too little negative', () => {
    const bay = { areaM2: 10, meanThicknessMm: 50, freshDensityKgM3: 2000 }
    expect(massBalance({ ...bay, deliveredKg: 1100 }).differencePercent).toBeCloseTo(10, 9)
    expect(massBalance({ ...bay, deliveredKg: 0 }).differencePercent).toBe(-100)
  })
})

describe('MIX: sand', () => {
  const passing = [100, 90, 75, 50, 20, 5].map((percent, i) => ({ sieveMm: 4 / 2 ** i, percent }))
  const band = {
    sieves: [
      { sieveMm: 2, least: 80, most: 100 },
      { sieveMm: 0.5, least: 30, most: 50 },
    ],
    source: 'Project sheet 7',
  }

  test('MIX-11: a missing sieve is named', () => {
    expect(() => finenessModulus(passing.slice(1))).toThrow(/4 mm sieve is missing/)
  })
  test('MIX-12: a finer sieve cannot pass more than a coarser one', () => {
    expect(() => finenessModulus([...passing.slice(0, 5), { sieveMm: 0.125, percent: 30 }])).toThrow(
      /finer sieve/,
    )
  })
  test('MIX-13: the fineness modulus lies between 0 and 6', () => {
    const of = (percent: number) => finenessModulus(passing.map(({ sieveMm }) => ({ sieveMm, percent })))
    expect([of(100), of(0)]).toEqual([0, 6])
  })
  test('MIX-14: at both edges of the band the sand passes, a hair outside it fails', () => {
    const verdictOf = (percent: number) =>
      gradeBand(
        [
          { sieveMm: 2, percent: 90 },
          { sieveMm: 0.5, percent },
        ],
        band,
      ).verdict
    expect([29.9, 30, 50, 50.1].map(verdictOf)).toEqual(['fail', 'pass', 'pass', 'fail'])
  })
  test('MIX-15: a sieve of the band that was not used is not known, and the band is marked as the project’s own', () => {
    const result = gradeBand([{ sieveMm: 2, percent: 90 }], band)
    expect(result.verdict).toBe('not known')
    expect(result.findings[0]?.limit).toMatchObject({ source: 'Project sheet 7', provenance: 'company rule' })
  })
  test('MIX-16: a band whose least exceeds its most, or that is empty, is refused', () => {
    expect(() => gradeBand(passing, { sieves: [{ sieveMm: 2, least: 60, most: 50 }], source: 'x' })).toThrow(
      InputError,
    )
    expect(() => gradeBand(passing, { sieves: [], source: 'x' })).toThrow(InputError)
  })
  test('MIX-17: EN 12620 Annex B (quoted second-hand): 40 % through 0.5 mm is coarse or medium, 60 % medium or fine, 2 % none', () => {
    expect(coarsenessOf(40)).toEqual(['coarse', 'medium'])
    expect(coarsenessOf(60)).toEqual(['medium', 'fine'])
    expect(coarsenessOf(2)).toEqual([])
  })
})
