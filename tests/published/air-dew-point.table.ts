import { dewPointC, dewPointMargin } from '#model/air/index.ts'
import { publishedTable } from './table.ts'

type Input =
  | { what: 'dew point'; tempC: number; rhPercent: number }
  | { what: 'margin'; airC: number; rhPercent: number; surfaceC: number }

const byHand = {
  reason: 'the printed value is rounded to 0.01',
  source: 'Magnus formula worked by hand',
  provenance: 'from memory',
} as const
const byHandAt = (tempC: number, rhPercent: number, expected: number) => ({
  name: `dew point at ${tempC} °C, ${rhPercent} %`,
  input: { what: 'dew point', tempC, rhPercent } as const,
  expected,
  tolerance: 0.02,
  ...byHand,
})

export default publishedTable<Input>({
  title: 'air: dew points and margins of published examples',
  unit: 'K',
  calculate: (input) =>
    input.what === 'margin' ? dewPointMargin(input) : dewPointC(input.tempC, input.rhPercent),
  rows: [
    byHandAt(20, 65, 13.22),
    byHandAt(16, 71, 10.74),
    byHandAt(18, 75, 13.5),
    byHandAt(27, 65, 19.86),
    byHandAt(20, 50, 9.26),
    byHandAt(10, 85, 7.59),
    byHandAt(30, 55, 19.97),
    {
      name: 'dew point of a printed example: 30 °C, 55 %',
      input: { what: 'dew point', tempC: 30, rhPercent: 55 },
      expected: 20,
      tolerance: 0.1,
      reason: 'the page prints whole degrees; 0.1 K is the disagreement found',
      source: 'Flooring guidance page, printed example',
      provenance: 'quoted second-hand',
    },
    {
      name: 'dew point by chart: 80 °F and 50 % give 59 °F',
      input: { what: 'dew point', tempC: (80 - 32) / 1.8, rhPercent: 50 },
      expected: (59 - 32) / 1.8,
      tolerance: 0.56,
      reason: '1 °F: the chart rounds down',
      source: 'Dew point chart of a coating guide',
      provenance: 'quoted second-hand',
    },
    {
      name: 'margin at 16 °C, 71 % over 13 °C: 2.26 K, published as not suitable',
      input: { what: 'margin', airC: 16, rhPercent: 71, surfaceC: 13 },
      expected: 2.26,
      tolerance: 0.05,
      ...byHand,
    },
    {
      name: 'margin at 16 °C, 71 % over 14 °C: 3.26 K',
      input: { what: 'margin', airC: 16, rhPercent: 71, surfaceC: 14 },
      expected: 3.26,
      tolerance: 0.05,
      ...byHand,
    },
  ],
})
