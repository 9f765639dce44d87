import { massBalance } from '#model/mix/index.ts'
import { publishedTable } from './table.ts'

const bay = { areaM2: 22.4, meanThicknessMm: 68, freshDensityKgM3: 2000, deliveredKg: 11 * 250 }

export default publishedTable<keyof ReturnType<typeof massBalance>>({
  title: 'mix: mass laid against mass needed',
  unit: 'kg or %',
  calculate: (what) => massBalance(bay)[what],
  rows: [
    {
      name: '22.4 m² at 68 mm and 2000 kg/m³ need 3046 kg',
      input: 'expectedKg',
      expected: 3046,
      tolerance: 0.5,
      reason: 'rounded to 1 kg',
      source: 'Worked example by hand',
      provenance: 'our judgement',
    },
    {
      name: '11 batches of 250 kg are 9.7 % short',
      input: 'differencePercent',
      expected: -9.7,
      tolerance: 0.05,
      reason: 'rounded to 0.1 %',
      source: 'Worked example by hand',
      provenance: 'our judgement',
    },
  ],
})
