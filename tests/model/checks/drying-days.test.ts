import { describe, expect, test } from 'vitest'
import { dryingDays, whyDryingDays } from '#model/checks/index.ts'
import { daysByRule } from '#model/drying/index.ts'
import { effectiveRules } from '#model/rules/index.ts'

const rules = effectiveRules('british')

describe('DAYS: the rule of thumb for drying', () => {
  test('DAYS-1: the break of the rules in force is used: 50 mm for cement, 40 mm for calcium sulfate', () => {
    for (let thicknessMm = 10; thicknessMm <= 150; thicknessMm += 5) {
      expect(dryingDays({ thicknessMm, screed: 'cement-sand', rules })).toBe(
        daysByRule({ thicknessMm, breakMm: 50 }),
      )
      expect(dryingDays({ thicknessMm, screed: 'calcium sulfate', rules })).toBe(
        daysByRule({ thicknessMm, breakMm: 40 }),
      )
    }
  })
  test('DAYS-2: the why shows the break and its source', () => {
    const why = whyDryingDays({ thicknessMm: 65, screed: 'cement-sand', rules })
    expect(why).toMatchObject({ value: 80, provenance: 'quoted second-hand' })
    expect(why.inputs[1]).toMatchObject({ value: 50 })
  })
  test('DAYS-3: a thickness that is not a number is refused', () => {
    expect(() => dryingDays({ thicknessMm: Number.NaN, screed: 'cement-sand', rules })).toThrow(/thicknessMm/)
  })
})
