import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { evaporationRate, evaporationRateMenzel, whyEvaporation } from '#model/air/index.ts'
import { InputError } from '#model/errors.ts'

const conditions = fc.record({
  surfaceC: fc.double({ min: -30, max: 70, noNaN: true }),
  airC: fc.double({ min: -30, max: 60, noNaN: true }),
  rhPercent: fc.double({ min: 0, max: 100, noNaN: true }),
  windKmh: fc.double({ min: 0, max: 250, noNaN: true }),
})

describe('EVAP: evaporation', () => {
  test('EVAP-1: the rate is a number and never below 0', () => {
    fc.assert(
      fc.property(conditions, (given) =>
        [evaporationRate(given), evaporationRateMenzel(given)].every(
          (rate) => rate >= 0 && Number.isFinite(rate),
        ),
      ),
    )
  })
  test('EVAP-8: vapour below −18 °C counts as none: 5 · 18^2.5 · 4 · 10⁻⁶ by hand, however cold the air', () => {
    for (const airC of [-18, -22, -30])
      expect(evaporationRate({ surfaceC: 0, airC, rhPercent: 100, windKmh: 0 })).toBeCloseTo(0.027492, 6)
  })
  test('EVAP-2: warmer surface, drier air or more wind never lower it', () => {
    fc.assert(
      fc.property(conditions, (given) => {
        const rate = evaporationRate(given)
        const more = [
          { ...given, surfaceC: Math.min(70, given.surfaceC + 1) },
          { ...given, rhPercent: Math.max(0, given.rhPercent - 1) },
          { ...given, windKmh: Math.min(250, given.windKmh + 1) },
        ]
        return more.every((changed) => evaporationRate(changed) >= rate)
      }),
    )
  })
  test('EVAP-3: warm humid air over a cold surface evaporates nothing', () => {
    expect(evaporationRate({ surfaceC: 5, airC: 25, rhPercent: 80, windKmh: 10 })).toBe(0)
  })
  test('EVAP-4: a cold windy day on a warm mix is as bad as a hot one', () => {
    const cold = evaporationRate({ surfaceC: 15, airC: 4, rhPercent: 60, windKmh: 20 })
    const hot = evaporationRate({ surfaceC: 22, airC: 24, rhPercent: 40, windKmh: 15 })
    expect(cold).toBeGreaterThan(hot)
  })
  test('EVAP-5: both formulas agree within 10 % in ordinary conditions, so that a slip in one is seen', () => {
    for (const surfaceC of [15, 20, 25]) {
      for (const rhPercent of [40, 50, 60]) {
        for (const windKmh of [3, 10, 20]) {
          const given = { surfaceC, airC: surfaceC, rhPercent, windKmh }
          expect(evaporationRate(given) / evaporationRateMenzel(given)).toBeGreaterThan(0.9)
          expect(evaporationRate(given) / evaporationRateMenzel(given)).toBeLessThan(1.1)
        }
      }
    }
  })
  test.each(['surfaceC', 'airC', 'rhPercent', 'windKmh'] as const)(
    'EVAP-6: %s that is not a number is refused by name',
    (field) => {
      const given = { surfaceC: 20, airC: 20, rhPercent: 50, windKmh: 5, [field]: Number.NaN }
      expect(() => evaporationRate(given)).toThrow(InputError)
      expect(() => evaporationRate(given)).toThrow(expect.objectContaining({ field }))
    },
  )
  test('EVAP-7: the why carries the same number and its four inputs', () => {
    const given = { surfaceC: 20, airC: 20, rhPercent: 60, windKmh: 5 }
    expect(whyEvaporation(given)).toMatchObject({
      value: evaporationRate(given),
      provenance: 'quoted second-hand',
    })
    expect(whyEvaporation(given).inputs.map(({ value }) => value)).toEqual([20, 20, 60, 5])
  })
})
