import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { InputError } from '#model/errors.ts'
import {
  consolidantKgPerM2,
  consolidantL,
  cutOut,
  cutOutAreaM2,
  fillResinL,
  fillSteps,
} from '#model/faults/index.ts'

/** Arithmetic by hand; the factors are common practice and our judgement. */
describe('QTY: what a repair takes', () => {
  it('QTY-1: a still crack of 14.2 m by 0.5 mm by 68 mm takes 0.48 L, and 0.83 L are ordered', () => {
    const crack = { lengthM: 14.2, widthMm: 0.5, depthMm: 68 }
    const steps = fillSteps(crack)
    expect(steps.crackL).toBeCloseTo(0.4828, 9)
    expect(steps.crackL * 1.3).toBeCloseTo(0.63, 2)
    expect(steps.crackL * 1.3 * 1.2).toBeCloseTo(0.75, 2)
    expect(fillResinL(crack)).toBeCloseTo(0.4828 * 1.3 * 1.2 * 1.1, 9)
    expect(fillResinL(crack)).toBeCloseTo(0.83, 2)
  })

  it('QTY-2: a crack of 1.1 m by 2.5 mm by 65 mm filled with sand: 0.27 kg sand, and 0.12 L resin with pot waste', () => {
    const steps = fillSteps({ lengthM: 1.1, widthMm: 2.5, depthMm: 65, sandFilled: true })
    expect(steps.crackL).toBeCloseTo(0.179, 3)
    expect(steps.sandKg).toBeCloseTo(0.27, 2)
    expect(steps.resinL).toBeCloseTo(0.0715, 9)
    // Without what sets in the pot it would be 0.11.
    expect(steps.orderL / 1.1).toBeCloseTo(0.11, 2)
    expect(steps.orderL).toBeCloseTo(0.123, 3)
  })

  it('QTY-3: on insulation a crack wider than 1 mm loses as much again, one of 1 mm does not', () => {
    const at = (widthMm: number, floating: boolean) =>
      fillResinL({ lengthM: 1, widthMm, depthMm: 70, floating })
    expect(at(1.1, true) / at(1.1, false)).toBeCloseTo(2 / 1.3, 9)
    expect(at(1, true)).toBe(at(1, false))
  })

  it('QTY-4: without topping up a sixth less; rounds or yes are the same', () => {
    const crack = { lengthM: 3, widthMm: 0.8, depthMm: 70 }
    expect(fillResinL({ ...crack, topUps: false })).toBeCloseTo(fillResinL(crack) / 1.2, 9)
    expect(fillResinL({ ...crack, topUps: 3 })).toBe(fillResinL({ ...crack, topUps: true }))
    expect(fillResinL({ ...crack, topUps: 0 })).toBe(fillResinL({ ...crack, topUps: false }))
  })

  it.each([
    [3, 0.44],
    [5, 0.73],
    [8, 1.16],
    [10, 1.45],
    [20, 2.9],
  ])('QTY-5: %d mm of weak screed takes %d kg/m² of consolidant', (depthMm, kg) => {
    expect(consolidantKgPerM2({ depthMm })).toBeCloseTo(kg, 2)
  })

  it('QTY-6: litres include 10 % waste; passes reach 5 mm in open and 3 mm in closed texture, 15 mm at most', () => {
    expect(consolidantL({ areaM2: 10, depthMm: 5 })).toBeCloseTo((10 * 5 * 0.22 * 0.6 * 1.1 * 1.1) / 1.1, 9)
    expect(consolidantL({ areaM2: 10, openTexture: true, passes: 1 })).toBe(
      consolidantL({ areaM2: 10, depthMm: 5 }),
    )
    expect(consolidantL({ areaM2: 10, openTexture: false, passes: 2 })).toBe(
      consolidantL({ areaM2: 10, depthMm: 6 }),
    )
    expect(consolidantL({ areaM2: 10, openTexture: true, passes: 9 })).toBe(
      consolidantL({ areaM2: 10, depthMm: 15 }),
    )
  })

  // Attributed to BS 8204-1, quoted second-hand: 1 day a millimetre to 50 mm, 2 days beyond.
  it.each([
    [65, 80],
    [68, 86],
    [70, 90],
    [75, 100],
  ])('QTY-7: new screed of %d mm is planned to dry %d days after curing', (thicknessMm, newDryingDays) => {
    expect(cutOut({ areaM2: 4, thicknessMm })).toMatchObject({ newDryingDays })
  })

  it('QTY-8: 4 m² of 70 mm: 0.28 m³, 574 kg of waste, 0.42 m³ loose, as much new screed', () => {
    const cut = cutOut({ areaM2: 4, thicknessMm: 70 })
    expect(cut.wasteKg).toBeCloseTo(574, 6)
    expect(cut.looseM3).toBeCloseTo(0.42, 9)
    expect(cut.newScreedKg).toBeCloseTo(574, 6)
    expect(cutOutAreaM2({ longM: 1, shortM: 0.6 })).toBeCloseTo(1.4 * 1, 9)
    expect(cutOutAreaM2({ longM: 1, shortM: 0.6, fretted: true })).toBeCloseTo(1.6 * 1.2, 9)
  })

  it('QTY-9: a longer, wider or deeper crack never takes less', () => {
    const size = fc.double({ min: 0, max: 20, noNaN: true })
    fc.assert(
      fc.property(size, size, size, size, fc.boolean(), (lengthM, widthMm, depthMm, more, floating) => {
        const base = fillResinL({ lengthM, widthMm, depthMm, floating })
        expect(fillResinL({ lengthM: lengthM + more, widthMm, depthMm, floating })).toBeGreaterThanOrEqual(
          base,
        )
        expect(
          fillResinL({ lengthM, widthMm: Math.min(30, widthMm + more), depthMm, floating }),
        ).toBeGreaterThanOrEqual(base)
        expect(fillResinL({ lengthM, widthMm, depthMm: depthMm + more, floating })).toBeGreaterThanOrEqual(
          base,
        )
      }),
      { seed: 3, numRuns: 100 },
    )
  })

  it.each([
    ['lengthM', () => fillResinL({ lengthM: Number.NaN, widthMm: 1, depthMm: 70 })],
    ['widthMm', () => fillResinL({ lengthM: 1, widthMm: 31, depthMm: 70 })],
    ['depthMm', () => fillResinL({ lengthM: 1, widthMm: 1, depthMm: -1 })],
    ['topUps', () => fillResinL({ lengthM: 1, widthMm: 1, depthMm: 1, topUps: Number.NaN })],
    ['areaM2', () => consolidantL({ areaM2: Number.POSITIVE_INFINITY })],
    ['passes', () => consolidantL({ areaM2: 1, passes: 0 })],
    ['porosity', () => consolidantKgPerM2({ depthMm: 3, porosity: 0.9 })],
    ['thicknessMm', () => cutOut({ areaM2: 1, thicknessMm: 9 })],
    ['areaM2', () => cutOut({ areaM2: -1, thicknessMm: 70 })],
    ['shortM', () => cutOutAreaM2({ longM: 1, shortM: 2 })],
  ])('QTY-10: %s out of range is refused by its name', (field, ask) => {
    let refused: unknown
    try {
      ask()
    } catch (cause) {
      refused = cause
    }
    expect(refused).toBeInstanceOf(InputError)
    expect((refused as InputError).field).toBe(field)
  })
})
