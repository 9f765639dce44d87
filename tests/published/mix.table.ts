import { finenessModulus, type Passing, proportionsOf } from '#model/mix/index.ts'
import { publishedTable } from './table.ts'

type Input =
  | {
      what: 'drySandKg' | 'sandPerCement' | 'waterCement'
      cementKg: number
      dampSandKg: number
      sandMoisturePercent: number
      addedWaterKg: number
    }
  | { what: 'fineness'; passing: Passing[] }

const batch = { cementKg: 50, dampSandKg: 200, sandMoisturePercent: 6, addedWaterKg: 10 } as const
const hand = { source: 'Worked example by hand', provenance: 'our judgement' } as const

export default publishedTable<Input>({
  title: 'mix: proportions and fineness',
  unit: 'kg or kg/kg',
  calculate: (input) =>
    input.what === 'fineness' ? finenessModulus(input.passing) : proportionsOf(input)[input.what],
  rows: [
    {
      name: 'dry sand in 200 kg at 6 %',
      input: { what: 'drySandKg', ...batch },
      expected: 188.7,
      tolerance: 0.05,
      reason: 'rounded to 0.1 kg',
      ...hand,
    },
    {
      name: 'sand for one part of cement',
      input: { what: 'sandPerCement', ...batch },
      expected: 3.77,
      tolerance: 0.005,
      reason: 'rounded to 0.01',
      ...hand,
    },
    {
      name: 'water for one part of cement',
      input: { what: 'waterCement', ...batch },
      expected: 0.43,
      tolerance: 0.005,
      reason: 'rounded to 0.01',
      ...hand,
    },
    {
      name: 'fineness modulus of a sand of which 100, 90, 75, 50, 20, 5 % pass 4 to 0.125 mm',
      input: {
        what: 'fineness',
        passing: [100, 90, 75, 50, 20, 5].map((percent, i) => ({ sieveMm: 4 / 2 ** i, percent })),
      },
      expected: (0 + 10 + 25 + 50 + 80 + 95) / 100,
      tolerance: 1e-12,
      reason: 'exact arithmetic',
      source: 'EN 12620 Annex B, worked by hand',
      provenance: 'quoted second-hand',
    },
  ],
})
