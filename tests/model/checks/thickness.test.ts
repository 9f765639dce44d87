import { describe, expect, test } from 'vitest'
import { checkThickness, constructionOnBase, type ThicknessQuestion } from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'
import { effectiveRules } from '#model/rules/index.ts'

const cement: ThicknessQuestion = {
  screed: 'cement-sand',
  construction: 'bonded',
  loading: 'light',
  heated: false,
  measuredMm: [40],
  lifts: 2,
}
const sulfate: ThicknessQuestion = { ...cement, screed: 'calcium sulfate' }

describe('THK: thickness', () => {
  test.each([
    ['bonded cement 25 mm (BS 8204-1, quoted second-hand)', cement, 24, 25],
    [
      'unbonded cement 50 mm (BS 8204-1, quoted second-hand)',
      { ...cement, construction: 'unbonded' },
      49,
      50,
    ],
    [
      'floating cement, light, 65 mm (BS 8204-1, quoted second-hand)',
      { ...cement, construction: 'floating' },
      64,
      65,
    ],
    [
      'floating cement, heavier, 75 mm (BS 8204-1, quoted second-hand)',
      { ...cement, construction: 'floating', loading: 'other' },
      74,
      75,
    ],
    ['bonded calcium sulfate 25 mm (from memory)', sulfate, 24, 25],
    ['unbonded calcium sulfate 30 mm (from memory)', { ...sulfate, construction: 'unbonded' }, 29, 30],
    [
      'floating calcium sulfate, light, 35 mm (from memory)',
      { ...sulfate, construction: 'floating' },
      34,
      35,
    ],
    [
      'floating calcium sulfate, heavier, 40 mm (from memory)',
      { ...sulfate, construction: 'floating', loading: 'other' },
      39,
      40,
    ],
  ] as [string, ThicknessQuestion, number, number][])(
    'THK-1: %s: one millimetre less fails',
    (_, question, thin, enough) => {
      expect(checkThickness({ ...question, measuredMm: [enough, thin] }).verdict).toBe('fail')
      expect(checkThickness({ ...question, measuredMm: [enough, enough + 3] }).verdict).toBe('pass')
    },
  )
  test('THK-2: 24 mm over a service pipe fails, 25 mm passes (warranty body 2011, quoted second-hand)', () => {
    expect(checkThickness({ ...cement, serviceCoverMm: 24 }).verdict).toBe('fail')
    expect(checkThickness({ ...cement, serviceCoverMm: 25 }).verdict).toBe('pass')
  })
  test('THK-3: a heated bay without a measured pipe cover is not known; 30 mm passes, 29 mm fails (EN 1264-4)', () => {
    const heated = { ...cement, heated: true }
    expect(checkThickness(heated).verdict).toBe('not known')
    expect(checkThickness({ ...heated, pipeCoverMm: 30 }).verdict).toBe('pass')
    expect(checkThickness({ ...heated, pipeCoverMm: 29 }).verdict).toBe('fail')
  })
  test('THK-4: what is too thin fails even while the pipe cover is unknown', () => {
    expect(checkThickness({ ...cement, heated: true, measuredMm: [10] }).verdict).toBe('fail')
  })
  test('THK-5: nothing measured is not known', () => {
    expect(checkThickness({ ...cement, measuredMm: [] }).verdict).toBe('not known')
  })
  test('THK-6: 50 mm in one lift is no remark, 51 mm is, and two lifts take it away (BS 8204-1, “may”)', () => {
    const remarks = (measured: number, lifts: number | null) =>
      checkThickness({ ...cement, construction: 'unbonded', measuredMm: [measured], lifts }).cautions.map(
        ({ what }) => what,
      )
    expect(remarks(50, 1)).toEqual([])
    expect(remarks(51, 1)).toEqual(['Thickest point laid in one lift'])
    expect(remarks(51, null)).toEqual(['Thickest point laid in one lift'])
    expect(remarks(51, 2)).toEqual([])
  })
  test('THK-7: bonded above 40 mm is a remark and no failure', () => {
    const result = checkThickness({ ...cement, measuredMm: [45] })
    expect(result.verdict).toBe('pass')
    expect(result.cautions).toHaveLength(1)
  })
  test('THK-8: a fast-drying screed is judged by its maker’s least thickness, and is not known without it', () => {
    const fast = { ...cement, screed: 'fast drying' } as const
    expect(checkThickness(fast).verdict).toBe('not known')
    expect(checkThickness({ ...fast, makerLeastMm: 40 }).verdict).toBe('pass')
    expect(checkThickness({ ...fast, makerLeastMm: 41 }).verdict).toBe('fail')
  })
  test('THK-9: the rule set moves the limit: 60 mm floating and light is too thin in Britain and enough in Germany', () => {
    const floating = { ...cement, construction: 'floating', measuredMm: [60] } as const
    expect(checkThickness(floating).verdict).toBe('fail')
    expect(checkThickness({ ...floating, rules: effectiveRules('german') }).verdict).toBe('pass')
  })
  test('THK-10: a thickness that is not a number, or an unknown word, is refused', () => {
    expect(() => checkThickness({ ...cement, measuredMm: [Number.NaN] })).toThrow(/measuredMm\[0\]/)
    expect(() => checkThickness({ ...cement, construction: 'glued' as 'bonded' })).toThrow(InputError)
    expect(() => checkThickness({ ...cement, loading: 'heavy' as 'other' })).toThrow(InputError)
  })
})

describe('BASE: what a screed counts as (BS 8204-1 6.4.2, quoted second-hand)', () => {
  const good = {
    mechanicallyPrepared: true,
    oilContaminated: false,
    waterproofingAdmixture: false,
    membrane: 'none',
    insulation: false,
  } as const
  test.each([
    ['a prepared, clean base', good, 'bonded'],
    ['a tamped base', { ...good, mechanicallyPrepared: false }, 'unbonded'],
    ['oil', { ...good, oilContaminated: true }, 'unbonded'],
    ['a waterproofing admixture', { ...good, waterproofingAdmixture: true }, 'unbonded'],
    ['a membrane', { ...good, membrane: 'other' }, 'unbonded'],
    ['an epoxy membrane that also bonds', { ...good, membrane: 'bonding epoxy' }, 'bonded'],
    ['insulation', { ...good, insulation: true }, 'floating'],
  ] as const)('BASE-1: on %s', (_, base, construction) => {
    expect(constructionOnBase(base).construction).toBe(construction)
  })
})
