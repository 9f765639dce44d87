import { type DryingConditions, evaporationRate, evaporationRateMenzel } from '#model/air/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = DryingConditions & { formula: 'Uno' | 'Menzel' }
type Line = readonly [surfaceC: number, airC: number, rhPercent: number, windKmh: number, expected: number]

const poundPerFt2 = 4.88243

function rowsOf(
  formula: Input['formula'],
  lines: readonly Line[],
  tolerance: number,
  source: string,
): PublishedRow<Input>[] {
  return lines.map(([surfaceC, airC, rhPercent, windKmh, expected]) => ({
    name: `${formula}: surface ${surfaceC} °C, air ${airC} °C, ${rhPercent} %, ${windKmh} km/h`,
    input: { formula, surfaceC, airC, rhPercent, windKmh },
    expected,
    tolerance,
    reason: 'the expected value is rounded to its last printed digit',
    source,
    provenance: formula === 'Uno' ? 'quoted second-hand' : 'from memory',
  }))
}

const classic = { surfaceC: 30.6, airC: 26.7, rhPercent: 50, windKmh: 19.3 } as const
const nomograph = {
  expected: 0.245 * poundPerFt2,
  tolerance: 0.014 * poundPerFt2,
  reason: 'read from the nomograph as 0.24 to 0.25 lb/(ft²·h)',
  source: 'ACI 305R nomograph, the example at 87 °F, 80 °F, 50 %, 12 mph',
  provenance: 'from memory',
} as const

export default publishedTable<Input>({
  title: 'air: evaporation from a fresh surface',
  unit: 'kg/(m²·h)',
  calculate: ({ formula, ...conditions }) =>
    formula === 'Uno' ? evaporationRate(conditions) : evaporationRateMenzel(conditions),
  rows: [
    ...rowsOf(
      'Uno',
      [
        [30.6, 26.7, 50, 19.3, 1.14],
        [25, 25, 50, 10, 0.424],
        [20, 20, 60, 5, 0.16],
        [15, 5, 80, 20, 0.507],
        [30, 35, 30, 25, 1.425],
      ],
      0.0006,
      'Uno 1998, ACI Mat. J. 95-M34, worked by hand',
    ),
    ...rowsOf(
      'Uno',
      [
        [20, 20, 50, 5, 0.2],
        [22, 24, 40, 15, 0.53],
        [25, 28, 35, 25, 1.03],
        [15, 4, 60, 20, 0.59],
      ],
      0.006,
      'Uno 1998, ACI Mat. J. 95-M34, worked by hand',
    ),
    ...rowsOf(
      'Menzel',
      [
        [30.6, 26.7, 50, 19.3, 1.176],
        [25, 25, 50, 10, 0.426],
        [20, 20, 60, 5, 0.163],
        [15, 5, 80, 20, 0.462],
        // biome-ignore lint/suspicious/noApproximativeNumericConstant: a rate that happens to look like √2
        [30, 35, 30, 25, 1.414],
      ],
      0.0006,
      'Menzel 1954 in SI form, worked by hand',
    ),
    { name: 'Uno against the nomograph', input: { formula: 'Uno', ...classic }, ...nomograph },
    { name: 'Menzel against the nomograph', input: { formula: 'Menzel', ...classic }, ...nomograph },
  ],
})
