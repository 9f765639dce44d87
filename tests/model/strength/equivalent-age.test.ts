import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '#model/errors.ts'
import {
  type AgeMethod,
  ageForStrengthDays,
  agingFactor,
  equivalentAgeDays,
  maturityCh,
  maturityOf,
  strengthRatio,
  whyMaturity,
  whyStrength,
} from '#model/strength/index.ts'
import { held, hour, midnight } from './series.ts'

const methods: AgeMethod[] = ['ec2-b10', 'fhp', 'nurse-saul']
const anyTemperatures = fc.array(fc.double({ min: -20, max: 50, noNaN: true }), {
  minLength: 2,
  maxLength: 60,
})
const hourly = (temps: readonly number[]) => temps.map((tempC, i) => ({ at: midnight + i * hour, tempC }))

describe('AGE: equivalent age and maturity', () => {
  test.each(methods)('AGE-1: %s gives a finite age that grows with every warmer reading', (method) => {
    fc.assert(
      fc.property(anyTemperatures, (temps) => {
        const age = equivalentAgeDays(hourly(temps), method)!
        const warmer = equivalentAgeDays(hourly(temps.map((tempC) => tempC + 5)), method)!
        return Number.isFinite(age) && age >= 0 && warmer >= age
      }),
    )
  })
  test.each(methods)('AGE-2: %s adds up: two halves of a series make the whole', (method) => {
    fc.assert(
      fc.property(anyTemperatures, fc.integer({ min: 1, max: 58 }), (temps, cut) => {
        fc.pre(cut < temps.length - 1)
        const series = hourly(temps)
        const whole = equivalentAgeDays(series, method)!
        const parts =
          equivalentAgeDays(series.slice(0, cut + 1), method)! + equivalentAgeDays(series.slice(cut), method)!
        return Math.abs(whole - parts) < 1e-9
      }),
    )
  })
  test('AGE-3: the same instants in another time zone give the same age, also over a change to winter time', () => {
    const inZone = (offset: string, shiftHours: number) =>
      Array.from({ length: 49 }, (_, i) => {
        const local = new Date(Date.parse('2026-10-24T12:00:00Z') + (i + shiftHours) * hour)
          .toISOString()
          .slice(0, 19)
        return { at: `${local}${offset}`, tempC: 5 + (i % 7) }
      })
    const utc = equivalentAgeDays(inZone('Z', 0), 'fhp')
    expect(equivalentAgeDays(inZone('+05:30', 5.5), 'fhp')).toBe(utc)
    expect(equivalentAgeDays(inZone('-08:00', -8), 'fhp')).toBe(utc)
  })
  test('AGE-4: a gap longer than 3 h makes the age unknown; exactly 3 h does not', () => {
    const series = (gapHours: number) => [
      { at: midnight, tempC: 15 },
      { at: midnight + gapHours * hour, tempC: 15 },
    ]
    expect(equivalentAgeDays(series(3), 'fhp')).not.toBeNull()
    expect(equivalentAgeDays(series(3.01), 'fhp')).toBeNull()
    expect(maturityCh(series(12))).toBeNull()
    expect(maturityCh(series(12), -10, { maxGapHours: 12 })).toBeCloseTo(300, 9)
  })
  test('AGE-5: fewer than two readings are unknown, not zero', () => {
    expect(equivalentAgeDays([], 'fhp')).toBeNull()
    expect(maturityCh([{ at: midnight, tempC: 20 }])).toBeNull()
  })
  test('AGE-6: across a gap the measured hours still prove their part', () => {
    const series = [...held([[20, 24]]), ...held([[20, 24]], midnight + 48 * hour)]
    expect(maturityOf(series)).toEqual({ provenCh: 1440, unknownHours: 24 })
  })
  test('AGE-7: hours below 0 °C count as nothing in the maturity, and the part above 0 °C of a crossing hour counts', () => {
    expect(maturityCh(held([[-5, 24]]))).toBe(0)
    expect(maturityCh(hourly([2, -2]))).toBeCloseTo(0.5 * (1 + 10), 9)
  })
  test('AGE-8: nothing is gained at −10 °C and below', () => {
    expect(agingFactor(-10, 'ec2-b10')).toBe(0)
    expect(agingFactor(-10, 'fhp')).toBe(0)
    expect(agingFactor(-15, 'nurse-saul')).toBe(0)
  })
  test('AGE-9: below 10 °C the law of Freiesleben Hansen and Pedersen is the careful one', () => {
    for (let tempC = -9; tempC <= 10; tempC++) {
      expect(agingFactor(tempC, 'fhp')).toBeLessThan(agingFactor(tempC, 'ec2-b10'))
    }
  })
  test.each([
    [
      'times that step back',
      [
        { at: midnight, tempC: 5 },
        { at: midnight - 1, tempC: 5 },
      ],
      /out of order at item 2/,
    ],
    ['a time without an offset', [{ at: '2026-11-24T07:00:00', tempC: 5 }], /series\[0\]\.at/],
    ['a temperature that is not a number', [{ at: midnight, tempC: Number.NaN }], /series\[0\]\.tempC/],
  ])('AGE-10: %s is refused with the place', (_, series, message) => {
    expect(() => equivalentAgeDays(series, 'fhp')).toThrow(message)
  })
  test('AGE-11: an unknown method or cement class is refused', () => {
    expect(() => equivalentAgeDays(held([[20, 2]]), 'guess' as AgeMethod)).toThrow(InputError)
    expect(() => strengthRatio(3, 'Q' as 'N')).toThrow(InputError)
  })
})

describe('STR: strength', () => {
  test('STR-1: strength rises with age from 0 and passes 1 at 28 days', () => {
    expect(strengthRatio(0, 'N')).toBe(0)
    expect(strengthRatio(28, 'S')).toBe(1)
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 999, noNaN: true }),
        (age) => strengthRatio(age + 0.5, 'N') > strengthRatio(age, 'N'),
      ),
    )
  })
  test('STR-2: the age for a strength and the strength at an age are inverses', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 1.15, noNaN: true }),
        (ratio) => Math.abs(strengthRatio(ageForStrengthDays(ratio, 'N'), 'N') - ratio) < 1e-9,
      ),
    )
  })
  test('STR-3: a strength that is never reached is refused', () => {
    expect(() => ageForStrengthDays(1.5, 'N')).toThrow(/never reaches/)
  })
  test('STR-4: the whys carry the same numbers, and null where a gap makes them unknown', () => {
    const series = held([
      [5, 72],
      [12, 96],
    ])
    const why = whyStrength({ series, method: 'ec2-b10', cementClass: 'N', fcm28MPa: 28 })
    expect(why.value).toBeCloseTo(18.79, 2)
    expect(whyMaturity(series).value).toBe(maturityCh(series))
    const gap = [series[0]!, series.at(-1)!]
    expect(whyStrength({ series: gap, method: 'fhp', cementClass: 'N', fcm28MPa: 28 }).value).toBeNull()
    expect(whyMaturity(gap).value).toBeNull()
  })
})
