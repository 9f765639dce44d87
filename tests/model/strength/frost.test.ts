import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ageForStrengthDays, frostCheck, strengthRatio, whyFrost } from '#model/strength/index.ts'
import { held, hour, midnight } from './series.ts'

const mix = { cementClass: 'N', fcm28MPa: 28, requiredMPa: 5 } as const

describe('FROST: frost-safe strength', () => {
  test('FROST-1: at 20 °C a class N mix of 28 N/mm² is safe after twice 0.450 days (EN 1992-1-1 (3.2), from memory)', () => {
    const answer = frostCheck({ series: held([[20, 48]]), ...mix })
    expect(answer.verdict).toBe('safe')
    expect((answer.safeAt! - midnight) / (24 * hour)).toBeCloseTo(0.9, 2)
    expect(answer.firstFreezeAt).toBeNull()
  })
  test('FROST-2: at 5 °C by EN 1992-1-1 (B.10) the same takes twice 0.94 days', () => {
    const answer = frostCheck({ series: held([[5, 96]]), ...mix, method: 'ec2-b10' })
    expect((answer.safeAt! - midnight) / (24 * hour)).toBeCloseTo(2 * 0.94, 1)
  })
  test('FROST-3: frozen on the first night is frozen early, with the strength at that instant', () => {
    const answer = frostCheck({
      series: held([
        [8, 12],
        [-2, 6],
        [15, 200],
      ]),
      ...mix,
    })
    expect(answer.verdict).toBe('frozen early')
    expect(answer.safeAt).toBeNull()
    expect(answer.firstFreezeAt).toBe(midnight + 12 * hour)
    expect(answer.strengthAtFirstFreezeMPa).toBeGreaterThan(0)
    expect(answer.strengthAtFirstFreezeMPa).toBeLessThan(5)
  })
  test('FROST-4: a frost after the safe instant leaves it safe, and still says when and how strong', () => {
    const answer = frostCheck({
      series: held([
        [20, 72],
        [-4, 5],
      ]),
      ...mix,
    })
    expect(answer.verdict).toBe('safe')
    expect(answer.firstFreezeAt).toBe(midnight + 72 * hour)
    expect(answer.strengthAtFirstFreezeMPa).toBeCloseTo(28 * strengthRatio(3, 'N'), 1)
  })
  test('FROST-5: a cold series that ends before it is safe is at risk', () => {
    expect(frostCheck({ series: held([[3, 24]]), ...mix }).verdict).toBe('at risk')
  })
  test('FROST-6: a gap before it is safe makes it not known, whatever comes after', () => {
    const withGap = [...held([[10, 6]]), ...held([[20, 200]], midnight + 20 * hour)]
    const answer = frostCheck({ series: withGap, ...mix })
    expect(answer).toMatchObject({ verdict: 'not known', safeAt: null, unknownFrom: midnight + 6 * hour })
  })
  test('FROST-7: a frost after a gap is reported without a strength', () => {
    const withGap = [
      ...held([[10, 6]]),
      ...held(
        [
          [2, 1],
          [-3, 5],
        ],
        midnight + 20 * hour,
      ),
    ]
    const answer = frostCheck({ series: withGap, ...mix })
    expect(answer.verdict).toBe('not known')
    expect(answer.firstFreezeAt).not.toBeNull()
    expect(answer.strengthAtFirstFreezeMPa).toBeNull()
  })
  test('FROST-7: a frost found at the end of a gap is dated to the reading that shows it, not to the gap’s beginning', () => {
    const withGap = [...held([[10, 6]]), ...held([[-3, 5]], midnight + 20 * hour)]
    const answer = frostCheck({ series: withGap, ...mix })
    expect(answer).toMatchObject({ unknownFrom: midnight + 6 * hour, firstFreezeAt: midnight + 20 * hour })
  })
  test('FROST-8: a gap after it is safe changes nothing', () => {
    const withGap = [...held([[20, 48]]), ...held([[20, 5]], midnight + 90 * hour)]
    expect(frostCheck({ series: withGap, ...mix })).toMatchObject({ verdict: 'safe', unknownFrom: null })
  })
  test('FROST-9: a logger that starts long after laying leaves the first hours unknown', () => {
    const series = held([[20, 96]], midnight + 5 * hour)
    expect(frostCheck({ series, ...mix, laidAt: midnight }).verdict).toBe('not known')
    expect(frostCheck({ series, ...mix, laidAt: midnight + 3 * hour }).verdict).toBe('safe')
  })
  test('FROST-10: no or one reading is not known', () => {
    expect(frostCheck({ series: [], ...mix }).verdict).toBe('not known')
    expect(frostCheck({ series: [{ at: midnight, tempC: 20 }], ...mix }).verdict).toBe('not known')
  })
  test('FROST-11: −0.5 °C freezes at an onset of 0 °C and not at −1 °C', () => {
    const series = held([
      [5, 6],
      [-0.5, 6],
    ])
    expect(frostCheck({ series, ...mix, onsetC: 0 }).verdict).toBe('frozen early')
    expect(frostCheck({ series, ...mix, onsetC: -1 }).verdict).toBe('at risk')
  })
  test('FROST-16: hours between the onset and 0 °C gain nothing', () => {
    const age = (hours: number) =>
      frostCheck({
        series: held([
          [5, 6],
          [-0.5, hours],
        ]),
        ...mix,
        onsetC: -1,
      }).reachedAgeDays
    expect(age(12)).toBeCloseTo(age(1), 12)
    expect(age(12)).toBeGreaterThan(0)
  })
  test('FROST-18: of an hour from 4 to −0.5 °C only 4/4.5 is above zero: 0.4 · 0.889 h (Nurse-Saul by hand, datum −10 °C)', () => {
    const series = [
      { at: midnight, tempC: 4 },
      { at: midnight + hour, tempC: -0.5 },
    ]
    const { reachedAgeDays } = frostCheck({ series, ...mix, onsetC: -1, method: 'nurse-saul' })
    expect(reachedAgeDays).toBeCloseTo((((14 / 30 + 10 / 30) / 2) * (4 / 4.5)) / 24, 12)
  })
  test('FROST-17: a series that begins at the onset is frozen from its first reading, with no strength', () => {
    const answer = frostCheck({ series: held([[0, 6]]), ...mix })
    expect(answer).toMatchObject({
      verdict: 'frozen early',
      firstFreezeAt: midnight,
      strengthAtFirstFreezeMPa: 0,
    })
  })
  test('FROST-12: exactly at the onset counts as freezing', () => {
    expect(
      frostCheck({
        series: held([
          [5, 6],
          [0, 2],
        ]),
        ...mix,
      }).verdict,
    ).toBe('frozen early')
  })
  test('FROST-13: a colder history is never safe earlier', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1, max: 30, noNaN: true }), { minLength: 120, maxLength: 200 }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (temps, share) => {
          const at = (values: number[]) => values.map((tempC, i) => ({ at: midnight + i * hour, tempC }))
          const warm = frostCheck({ series: at(temps), ...mix }).safeAt
          const cold = frostCheck({ series: at(temps.map((tempC) => tempC * share)), ...mix }).safeAt
          return cold === null || (warm !== null && warm <= cold)
        },
      ),
    )
  })
  test('FROST-14: a mix that never reaches the strength asked for is refused with a sentence', () => {
    expect(() => frostCheck({ series: held([[20, 5]]), ...mix, fcm28MPa: 3 })).toThrow(/never reaches/)
  })
  test('FROST-15: the why shows the verdict, the two ages and the instants', () => {
    const question = {
      series: held([
        [8, 12],
        [-2, 6],
      ]),
      ...mix,
    }
    const why = whyFrost(question)
    expect(why.value).toBe('frozen early')
    expect(why.inputs.find(({ name }) => name === 'Age that counts as safe')?.value).toBeCloseTo(
      2 * ageForStrengthDays(5 / 28, 'N'),
      9,
    )
    expect(why.inputs.find(({ name }) => name === 'First frozen')?.value).toBe('2026-11-24T12:00:00.000Z')
  })
})
