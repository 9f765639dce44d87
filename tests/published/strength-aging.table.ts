import { type AgeMethod, agingFactor } from '#model/strength/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { tempC: number; method: AgeMethod }

const temperatures = [-5, 0, 5, 10, 15, 20, 25, 30, 40]

function rowsOf(method: AgeMethod, values: readonly number[], source: string): PublishedRow<Input>[] {
  return values.map((expected, i) => ({
    name: `${method} at ${temperatures[i]} °C`,
    input: { tempC: temperatures[i]!, method },
    expected,
    tolerance: 0.00006,
    reason: 'the expected value is rounded to four decimals',
    source,
    provenance: 'from memory',
  }))
}

export default publishedTable<Input>({
  title: 'strength: rate of aging against 20 °C',
  unit: '–',
  calculate: ({ tempC, method }) => agingFactor(tempC, method),
  rows: [
    ...rowsOf(
      'ec2-b10',
      [0.2793, 0.3671, 0.4778, 0.6161, 0.7875, 0.9981, 1.2551, 1.5662, 2.388],
      'EN 1992-1-1 (B.10), worked by hand',
    ),
    ...rowsOf(
      'fhp',
      [0.0679, 0.1508, 0.2922, 0.497, 0.7474, 1, 1.2595, 1.5744, 2.4078],
      'Freiesleben Hansen & Pedersen 1977, worked by hand',
    ),
  ],
})
