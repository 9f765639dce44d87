import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  absoluteHumidityGPerM3,
  dewPointC,
  dewPointMargin,
  saturationPressurePa,
  surfaceRhPercent,
  whyDewPointMargin,
} from '#model/air/index.ts'
import { InputError } from '#model/errors.ts'

const temperature = fc.double({ min: -40, max: 70, noNaN: true })
const humidity = fc.double({ min: 0.1, max: 100, noNaN: true })

describe('AIR: vapour', () => {
  test('AIR-1: saturation pressure rises with temperature everywhere, also across 0 °C', () => {
    let before = 0
    for (let tempC = -40; tempC <= 70; tempC += 0.01) {
      const pressure = saturationPressurePa(Math.min(70, tempC))
      expect(pressure, `at ${tempC} °C`).toBeGreaterThan(before)
      before = pressure
    }
  })
  test('AIR-2: ice governs below 0 °C: −10 °C gives 259.7 Pa, not the 286.6 Pa over water', () => {
    expect(saturationPressurePa(-10)).toBeCloseTo(259.67, 1)
  })
  test('AIR-3: saturated air is at its dew point', () => {
    fc.assert(fc.property(temperature, (tempC) => Math.abs(dewPointC(tempC, 100) - tempC) < 1e-9))
  })
  test('AIR-4: the dew point is a number, never above the air, and rises with humidity', () => {
    fc.assert(
      fc.property(temperature, humidity, humidity, (tempC, a, b) => {
        const [dry, wet] = [Math.min(a, b), Math.max(a, b)]
        const [low, high] = [dewPointC(tempC, dry), dewPointC(tempC, wet)]
        return Number.isFinite(low) && low <= high + 1e-9 && high <= tempC + 1e-9
      }),
    )
  })
  test('AIR-5: air cooled to its dew point is saturated', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -10, max: 50, noNaN: true }),
        fc.double({ min: 20, max: 100, noNaN: true }),
        (airC, rhPercent) => {
          const surfaceC = dewPointC(airC, rhPercent)
          return Math.abs(surfaceRhPercent({ airC, rhPercent, surfaceC }) - 100) < 1e-6
        },
      ),
    )
  })
  test('AIR-6: a surface below the dew point has a negative margin and more than 100 % humidity', () => {
    const cold = { airC: 20, rhPercent: 70, surfaceC: 10 }
    expect(dewPointMargin(cold)).toBeLessThan(0)
    expect(surfaceRhPercent(cold)).toBeGreaterThan(100)
  })
  test('AIR-7: dry air holds no vapour, and none of the functions accepts what is not a number', () => {
    expect(absoluteHumidityGPerM3(20, 0)).toBe(0)
    const bad = [
      () => saturationPressurePa(Number.NaN),
      () => dewPointC(20, 0),
      () => dewPointC(20, 101),
      () => absoluteHumidityGPerM3(20, Number.NaN),
      () => surfaceRhPercent({ airC: 20, rhPercent: 50, surfaceC: Number.POSITIVE_INFINITY }),
      () => dewPointMargin({ airC: 200, rhPercent: 50, surfaceC: 20 }),
    ]
    for (const call of bad) expect(call).toThrow(InputError)
  })
  test('AIR-8: an error names the field, so that the form can show it beside the box', () => {
    expect(() => dewPointMargin({ airC: 20, rhPercent: 0.65 / 100, surfaceC: 20 })).toThrow(
      expect.objectContaining({ field: 'rhPercent' }),
    )
  })
  test('AIR-9: the why of a margin carries the same number, its inputs and its source', () => {
    const args = { airC: 16, rhPercent: 71, surfaceC: 13 }
    const why = whyDewPointMargin(args)
    expect(why.value).toBe(dewPointMargin(args))
    expect(why.inputs.find(({ name }) => name === 'Dew point of the air')?.value).toBeCloseTo(10.74, 2)
    expect(why.source).toContain('Alduchov')
  })
})
