import { describe, expect, it } from 'vitest'
import { isMixKnown, isSameMix, type Mix, mixOf } from '#model/mix/index.ts'
import type { BodyOf } from '#model/record/kinds.ts'

const batch = (change: Partial<BodyOf<'batch-mixed'>> = {}): BodyOf<'batch-mixed'> => ({
  number: 1,
  cementKg: 50,
  cementType: 'CEM I 42.5 N',
  dampSandKg: 200,
  addedWaterKg: 10,
  mixer: 'forced action',
  ...change,
})
const plan = (designation?: string) => ({
  screed: 'cement-sand' as const,
  ...(designation !== undefined && { designation }),
})
const fourToOne = mixOf(plan(), [batch(), batch({ dampSandKg: 204 })])
const onPaper = mixOf(plan('CT-C25-F4'), [])

describe('the mix of a bay', () => {
  it('MIX-20: comes from its batches, all together, and from the designation of its plan', () => {
    expect(fourToOne).toEqual({
      screed: 'cement-sand',
      designation: null,
      recipe: { cementType: 'cem i 42.5 n', dampSandPerCement: 4.04, admixture: false },
    })
    expect(onPaper).toEqual({ screed: 'cement-sand', designation: 'ct-c25-f4', recipe: null })
  })

  it('MIX-21: is not known without a designation and a cement type, nor is a recipe with two cements one', () => {
    const { cementType: _, ...nameless } = batch()
    expect(isMixKnown(mixOf(plan(), [nameless]))).toBe(false)
    expect(isMixKnown(mixOf(plan('  '), []))).toBe(false)
    expect(mixOf(plan(), [batch(), batch({ cementType: 'CEM II 32.5 R' })]).recipe).toBeNull()
    expect(isMixKnown(fourToOne) && isMixKnown(onPaper)).toBe(true)
  })

  it.each<[string, Mix, boolean, boolean]>([
    ['the same recipe', fourToOne, true, true],
    ['capitals and spaces', mixOf(plan(), [batch({ cementType: ' cem I  42.5 n' })]), true, true],
    ['sand 9 % richer', mixOf(plan(), [batch({ dampSandKg: 220 })]), true, true],
    ['sand 20 % richer', mixOf(plan(), [batch({ dampSandKg: 242 })]), false, false],
    ['another cement', mixOf(plan(), [batch({ cementType: 'CEM II 32.5 R' })]), false, false],
    ['an admixture', mixOf(plan(), [batch({ admixtureKg: 0.5 })]), false, false],
    ['another screed', mixOf({ screed: 'calcium sulfate' }, [batch()]), false, false],
    ['a designation alone, the other has none', onPaper, false, false],
  ])('MIX-22: %s beside four parts of sand to one', (_, other, inProject, beyond) => {
    expect(isSameMix(fourToOne, other, true)).toBe(inProject)
    expect(isSameMix(other, fourToOne, true)).toBe(inProject)
    expect(isSameMix(fourToOne, other, false)).toBe(beyond)
  })

  it('MIX-23: a designation without recipes counts within one project and not beyond', () => {
    expect(isSameMix(onPaper, mixOf(plan('ct-c25-f4'), []), true)).toBe(true)
    expect(isSameMix(onPaper, mixOf(plan('ct-c25-f4'), [batch()]), true)).toBe(true)
    expect(isSameMix(onPaper, mixOf(plan('CT-C30-F5'), []), true)).toBe(false)
    expect(isSameMix(onPaper, onPaper, false)).toBe(false)
  })

  it('MIX-24: two mixes of which nothing is known are not the same', () => {
    const unknown = mixOf(plan(), [])
    expect(isSameMix(unknown, unknown, true)).toBe(false)
  })
})
