import { describe, expect, test } from 'vitest'
import { checkSoundness, footDiameterMm, type SoundnessTest } from '#model/checks/index.ts'
import { effectiveRules } from '#model/rules/index.ts'

const bonded: SoundnessTest = {
  category: 'A',
  construction: 'bonded',
  weightKg: 4,
  blows: 4,
  ageDays: 28,
  indentationsMm: [2, 2.5, 3],
}
const floatingC: SoundnessTest = {
  ...bonded,
  category: 'C',
  construction: 'floating',
  weightKg: 2,
  indentationsMm: [2.5],
}

describe('SND: drop-weight test (BS 8204-1 Table 4, quoted second-hand)', () => {
  test.each([
    ['A', 3, 3.1],
    ['B', 4, 4.1],
    ['C', 5, 5.1],
  ] as const)('SND-1: category %s passes at %d mm and fails at %d mm', (category, most, tooMuch) => {
    expect(checkSoundness({ ...bonded, category, indentationsMm: [most] }).verdict).toBe('pass')
    expect(checkSoundness({ ...bonded, category, indentationsMm: [1, tooMuch] }).verdict).toBe('fail')
  })
  test('SND-2: floating category C: 2.5 mm with 2 kg passes, 2.6 mm fails, 4 kg is the wrong weight', () => {
    expect(checkSoundness(floatingC).verdict).toBe('pass')
    expect(checkSoundness({ ...floatingC, indentationsMm: [2.6] }).verdict).toBe('fail')
    expect(checkSoundness({ ...floatingC, weightKg: 4 }).verdict).toBe('invalid')
  })
  test('SND-3: floating category B takes 4 kg and 4 mm', () => {
    const floatingB = { ...bonded, category: 'B', construction: 'floating', indentationsMm: [4] } as const
    expect(checkSoundness(floatingB).verdict).toBe('pass')
    expect(checkSoundness({ ...floatingB, weightKg: 2 }).verdict).toBe('invalid')
  })
  test('SND-4: at 13 days the test is too early, at 14 it counts', () => {
    expect(checkSoundness({ ...bonded, ageDays: 13 }).verdict).toBe('invalid')
    expect(checkSoundness({ ...bonded, ageDays: 14 }).verdict).toBe('pass')
  })
  test('SND-5: three or five blows prove nothing, however deep', () => {
    expect(checkSoundness({ ...bonded, blows: 3 }).verdict).toBe('invalid')
    expect(checkSoundness({ ...bonded, blows: 5, indentationsMm: [9] }).verdict).toBe('invalid')
  })
  test('SND-6: no reading, or fewer points than the area needs, is not known; a deep one still fails', () => {
    expect(checkSoundness({ ...bonded, indentationsMm: [] }).verdict).toBe('not known')
    expect(checkSoundness({ ...bonded, areaM2: 60 }).verdict).toBe('not known')
    expect(checkSoundness({ ...bonded, areaM2: 20 }).verdict).toBe('pass')
    expect(checkSoundness({ ...bonded, areaM2: 60, indentationsMm: [3.1] }).verdict).toBe('fail')
  })
  test('SND-7: no reading may exceed Table 4; the 1984 scheme lets one in ten exceed by 1 mm (BRE IP 11/84, quoted second-hand)', () => {
    const nineGood = Array.from({ length: 9 }, () => 2)
    const bre = effectiveRules('british', { soundnessScheme: 'breGrid' })
    expect(checkSoundness({ ...bonded, indentationsMm: [...nineGood, 4] }).verdict).toBe('fail')
    expect(checkSoundness({ ...bonded, indentationsMm: [...nineGood, 4], rules: bre }).verdict).toBe('pass')
    expect(checkSoundness({ ...bonded, indentationsMm: [...nineGood, 4.1], rules: bre }).verdict).toBe('fail')
    expect(
      checkSoundness({ ...bonded, indentationsMm: [...nineGood.slice(1), 4, 4], rules: bre }).verdict,
    ).toBe('fail')
  })
  test('SND-8: the foot of 25.23 mm has an area of 500 mm²', () => {
    expect((Math.PI / 4) * footDiameterMm ** 2).toBeCloseTo(499.95, 1)
  })
  test('SND-9: a reading or a category that is none is refused', () => {
    expect(() => checkSoundness({ ...bonded, indentationsMm: [Number.NaN] })).toThrow(/indentationsMm\[0\]/)
    expect(() => checkSoundness({ ...bonded, category: 'D' as 'A' })).toThrow(/choose A, B or C/)
  })
})
