import { exactHumidity, type LinearCase, solvedHumidity } from './linear-slab.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = LinearCase

const crank = {
  source: 'Crank 1975, The Mathematics of Diffusion, 2nd ed., eq. 4.53',
  provenance: 'from memory',
} as const
/** Surface, 40 % of depth and membrane, evaluated once by a separate program. */
const printed: [biot: number, days: number, values: [number, number, number]][] = [
  [0.5, 28, [0.88065, 0.93909, 0.9678]],
  [5, 7, [0.69285, 0.93815, 0.97963]],
  [5, 28, [0.61278, 0.80585, 0.91917]],
  [5, 90, [0.5517, 0.64343, 0.70342]],
  [50, 28, [0.51218, 0.73567, 0.88277]],
]
const days = [1, 3, 7, 14, 28, 56, 90, 180]
const shares = [0, 0.4, 1]

const printedRows = printed.flatMap(([biot, day, values]) =>
  shares.map(
    (share, i): PublishedRow<Input> => ({
      name: `Bi ${biot}, day ${day}, ${share} of the depth, printed`,
      input: { biot, days: day, share },
      expected: values[i]!,
      tolerance: 4e-4,
      reason: '40 cells and one-hour steps: largest error after the first week',
      ...crank,
    }),
  ),
)
const seriesRows = [0.5, 5, 50].flatMap((biot) =>
  days.flatMap((day) =>
    shares.map(
      (share): PublishedRow<Input> => ({
        name: `Bi ${biot}, day ${day}, ${share} of the depth, series`,
        input: { biot, days: day, share },
        expected: exactHumidity({ biot, days: day, share }),
        tolerance: day < 7 ? 1e-3 : 7e-4,
        reason:
          day < 7 ? 'the first steps after uncovering are coarse in time' : '40 cells and one-hour steps',
        ...crank,
      }),
    ),
  ),
)

export default publishedTable<Input>({
  title: 'drying: exact series of a slab with a surface resistance',
  unit: 'pore humidity, 0–1',
  calculate: solvedHumidity,
  rows: [...printedRows, ...seriesRows],
})
