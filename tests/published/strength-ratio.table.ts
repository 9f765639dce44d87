import { type CementClass, strengthRatio } from '#model/strength/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { ageDays: number; cementClass: CementClass }

const ages = [1, 2, 3, 7, 14, 28, 90]

function rowsOf(cementClass: CementClass, values: readonly number[]): PublishedRow<Input>[] {
  return values.map((expected, i) => ({
    name: `class ${cementClass} at ${ages[i]} days`,
    input: { ageDays: ages[i]!, cementClass },
    expected,
    tolerance: 0.00006,
    reason: 'the expected value is rounded to four decimals',
    source: 'EN 1992-1-1 (3.2), worked by hand',
    provenance: 'from memory',
  }))
}

export default publishedTable<Input>({
  title: 'strength: share of the 28-day strength',
  unit: '–',
  calculate: ({ ageDays, cementClass }) => strengthRatio(ageDays, cementClass),
  rows: [
    ...rowsOf('R', [0.4239, 0.5779, 0.663, 0.8187, 0.9205, 1, 1.0925]),
    ...rowsOf('N', [0.342, 0.5039, 0.5982, 0.7788, 0.9016, 1, 1.1169]),
    ...rowsOf('S', [0.1958, 0.3528, 0.458, 0.6839, 0.8544, 1, 1.183]),
  ],
})
