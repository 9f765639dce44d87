import { gaugeLimit } from '#model/checks/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { row: 3 | 4; lengthM: number }
const lengths = [0.1, 1, 4, 10, 15]

const rowsOf = (row: 3 | 4, gaps: readonly number[]): PublishedRow<Input>[] =>
  gaps.map((expected, i) => ({
    name: `row ${row} at ${lengths[i]} m`,
    input: { row, lengthM: lengths[i]! },
    expected,
    tolerance: 0,
    reason: 'printed whole millimetres',
    source: 'DIN 18202',
    clause: 'Table 3',
    provenance: 'quoted second-hand',
  }))

export default publishedTable<Input>({
  title: 'checks: gaps between gauge points',
  unit: 'mm',
  calculate: (input) => gaugeLimit(input).value,
  rows: [...rowsOf(3, [2, 4, 10, 12, 15]), ...rowsOf(4, [1, 3, 9, 12, 15])],
})
