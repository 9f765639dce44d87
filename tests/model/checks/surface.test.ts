import { describe, expect, test } from 'vitest'
import {
  checkGauge,
  checkLevel,
  checkRegularity,
  checkSurfaceClimate,
  crackCard,
  gaugeLimit,
  identificationCard,
} from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'

describe('FLAT: flatness and level', () => {
  test.each([
    ['SR1', 3],
    ['SR2', 5],
    ['SR3', 10],
  ] as const)(
    'FLAT-1: %s passes at %d mm and fails 0.1 mm above (BS 8204-1 Table 5, quoted second-hand)',
    (name, most) => {
      expect(checkRegularity({ class: name, gapsMm: [0, most] }).verdict).toBe('pass')
      expect(checkRegularity({ class: name, gapsMm: [most + 0.1] }).verdict).toBe('fail')
    },
  )
  test('FLAT-2: a 3 m straightedge makes the check invalid, no gaps make it not known', () => {
    expect(checkRegularity({ class: 'SR1', gapsMm: [1], straightedgeM: 3 }).verdict).toBe('invalid')
    expect(checkRegularity({ class: 'SR1', gapsMm: [] }).verdict).toBe('not known')
  })
  test('FLAT-3: 15 mm from level passes and 16 mm fails, up or down (BS 8204-1, quoted second-hand)', () => {
    expect(checkLevel({ departuresMm: [15, -15] }).verdict).toBe('pass')
    expect(checkLevel({ departuresMm: [16] }).verdict).toBe('fail')
    expect(checkLevel({ departuresMm: [-16] }).verdict).toBe('fail')
    expect(checkLevel({ departuresMm: [6], limitMm: 5 }).verdict).toBe('fail')
    expect(checkLevel({ departuresMm: [] }).verdict).toBe('not known')
  })
  test('FLAT-4: between the gauge lengths the limit runs straight: row 3 at 2.5 m is 7 mm', () => {
    expect(gaugeLimit({ row: 3, lengthM: 2.5 }).value).toBeCloseTo(7, 9)
    expect(checkGauge({ row: 4, gaps: [{ lengthM: 4, mm: 9.1 }] }).verdict).toBe('fail')
    expect(checkGauge({ row: 3, gaps: [{ lengthM: 4, mm: 9.1 }] }).verdict).toBe('pass')
  })
  test('FLAT-5: a class, row or gap that is none is refused', () => {
    expect(() => checkRegularity({ class: 'SR4' as 'SR1', gapsMm: [1] })).toThrow(InputError)
    expect(() => gaugeLimit({ row: 5 as 3, lengthM: 1 })).toThrow(InputError)
    expect(() => checkRegularity({ class: 'SR1', gapsMm: [-1] })).toThrow(/gapsMm\[0\]/)
  })
})

describe('CLIM: climate at the floor', () => {
  const good = { airC: 20, rhPercent: 50, surfaceC: 18, covering: 'vinyl', ruleSet: 'british' } as const
  test('CLIM-1: 16 °C and 71 % over 13 °C is not suitable, over 14 °C the margin is enough (published example, 3 K rule)', () => {
    const marginOf = (surfaceC: number) =>
      checkSurfaceClimate({ airC: 16, rhPercent: 71, surfaceC, covering: 'vinyl', ruleSet: 'british' })
        .findings[0]!
    expect(marginOf(13).value).toBeCloseTo(2.26, 1)
    expect(marginOf(13).limit?.value).toBe(3)
    expect(marginOf(14).value).toBeCloseTo(3.26, 1)
    expect(checkSurfaceClimate({ ...good, airC: 16, rhPercent: 71, surfaceC: 13 }).verdict).toBe('fail')
  })
  test('CLIM-2: a good room passes, and one value that was not measured makes it not known', () => {
    expect(checkSurfaceClimate(good).verdict).toBe('pass')
    for (const field of ['airC', 'rhPercent', 'surfaceC'] as const) {
      expect(checkSurfaceClimate({ ...good, [field]: null }).verdict).toBe('not known')
    }
  })
  test('CLIM-3: what is measured and wrong fails, whatever is missing', () => {
    expect(checkSurfaceClimate({ ...good, rhPercent: null, surfaceC: 5 }).verdict).toBe('fail')
  })
  test('CLIM-4: 15 °C at the surface is enough in Germany and too cold in Switzerland (DIN 18365, SIA 253)', () => {
    const cool = { ...good, surfaceC: 15.5 }
    expect(checkSurfaceClimate({ ...cool, ruleSet: 'german' }).verdict).toBe('pass')
    expect(checkSurfaceClimate({ ...cool, ruleSet: 'swiss' }).verdict).toBe('fail')
  })
  test('CLIM-5: NaN is refused by name, not judged', () => {
    expect(() => checkSurfaceClimate({ ...good, surfaceC: Number.NaN })).toThrow(
      expect.objectContaining({ field: 'surfaceC' }),
    )
  })
})

describe('CARD: an identification card as a gauge (ISO/IEC 7810, quoted second-hand)', () => {
  test('CARD-1: the card is 85.60 × 53.98 mm and 0.76 ± 0.08 mm thick', () => {
    expect(identificationCard).toMatchObject({
      widthMm: 85.6,
      heightMm: 53.98,
      thicknessMm: 0.76,
      thicknessToleranceMm: 0.08,
    })
  })
  test('CARD-2: a card that slides in proves at least 0.68 mm; one that does not, at most 0.84 mm', () => {
    expect(crackCard('slides in')).toEqual({ atLeastMm: expect.closeTo(0.68, 9), atMostMm: null })
    expect(crackCard('does not')).toEqual({ atLeastMm: null, atMostMm: expect.closeTo(0.84, 9) })
    expect(() => crackCard('nearly' as 'does not')).toThrow(InputError)
  })
})
