import { saturationPressurePa } from '#model/air/index.ts'
import { psychrolib } from './psychrolib.ts'
import { type PublishedRow, publishedTable } from './table.ts'

const ashrae = {
  source: 'ASHRAE Handbook Fundamentals equations, computed by psychrolib',
  edition: '2017; library 1.1.1',
  provenance: 'published',
} as const

const rows = Array.from({ length: 51 }, (_, i): PublishedRow<number> => {
  const tempC = -10 + i
  const expected = psychrolib.GetSatVapPres(tempC)
  return {
    name: `saturation pressure at ${tempC} °C`,
    input: tempC,
    expected,
    tolerance: 0.0027 * expected,
    reason: '0.27 %: what separates the Magnus form from the ASHRAE polynomial',
    ...ashrae,
  }
})

export default publishedTable<number>({
  title: 'air: saturation pressure, −10 to 40 °C',
  unit: 'Pa',
  calculate: saturationPressurePa,
  rows,
})
