import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '#model/errors.ts'
import { dryingShrinkageStrain, edgeStripMm, thermalMovementMm } from '#model/movement/index.ts'

const screed = {
  fcmMPa: 28,
  cementClass: 'N',
  rhPercent: 60,
  notionalSizeMm: 130,
  ageDays: 35,
  curedDays: 7,
} as const

describe('MOVE: shrinkage, heat and edge strip', () => {
  test('MOVE-1: no drying yet, no drying shrinkage; saturated air, none ever', () => {
    expect(dryingShrinkageStrain({ ...screed, ageDays: 7 })).toBe(0)
    expect(dryingShrinkageStrain({ ...screed, rhPercent: 100 })).toBe(0)
  })
  test('MOVE-2: shrinkage grows with time, drier air and thinner screed, and stays a number', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 8, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        fc.double({ min: 11, max: 2000, noNaN: true }),
        (ageDays, rhPercent, notionalSizeMm) => {
          const given = { ...screed, ageDays, rhPercent, notionalSizeMm }
          const strain = dryingShrinkageStrain(given)
          return (
            strain >= 0 &&
            strain < 1e-3 &&
            dryingShrinkageStrain({ ...given, ageDays: ageDays + 1 }) >= strain &&
            dryingShrinkageStrain({ ...given, rhPercent: rhPercent - 1 }) >= strain &&
            dryingShrinkageStrain({ ...given, notionalSizeMm: notionalSizeMm - 1 }) >= strain - 1e-15
          )
        },
      ),
    )
  })
  test('MOVE-3: the final value of 65 mm from one face at 60 % is 465.3·10⁻⁶ (EN 1992-1-1, from memory)', () => {
    const end = dryingShrinkageStrain({ ...screed, ageDays: 36_500 })
    expect(end * 1e6).toBeGreaterThan(464)
    expect(end * 1e6).toBeLessThan(465.3)
  })
  test('MOVE-5: cooling shortens, and needs no strip; shrinkage makes room', () => {
    expect(thermalMovementMm({ lengthM: 8, deltaC: -10, alphaPerK: 12e-6 })).toBeCloseTo(-0.96, 9)
    const args = { lengthM: 8, alphaPerK: 12e-6, compressible: 0.7 }
    expect(edgeStripMm({ ...args, deltaC: -10, strain: 0 })).toBe(0)
    expect(edgeStripMm({ ...args, deltaC: 30, strain: -0.0005 })).toBe(
      edgeStripMm({ ...args, deltaC: 30, strain: 0 }),
    )
    expect(edgeStripMm({ ...args, deltaC: 30, strain: 0.0002 })).toBeCloseTo((2.88 + 1.6) / 0.7, 9)
  })
  test('MOVE-6: curing longer than the age, a strip that does not give, or what is not a number is refused', () => {
    expect(() => dryingShrinkageStrain({ ...screed, curedDays: 40 })).toThrow(
      expect.objectContaining({ field: 'curedDays' }),
    )
    expect(() =>
      edgeStripMm({ lengthM: 8, deltaC: 30, alphaPerK: 12e-6, strain: 0, compressible: 0 }),
    ).toThrow(InputError)
    expect(() => thermalMovementMm({ lengthM: Number.NaN, deltaC: 1, alphaPerK: 1e-5 })).toThrow(InputError)
  })
})
