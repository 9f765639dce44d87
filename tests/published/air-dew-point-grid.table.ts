import { dewPointC } from '#model/air/index.ts'
import { airGrid, psychrolib } from './psychrolib.ts'
import { publishedTable } from './table.ts'

export default publishedTable<{ tempC: number; rhPercent: number }>({
  title: 'air: dew point, −10 to 40 °C and 5 to 100 %',
  unit: 'K',
  calculate: ({ tempC, rhPercent }) => dewPointC(tempC, rhPercent),
  rows: airGrid.map((input) => ({
    name: `dew point at ${input.tempC} °C, ${input.rhPercent} %`,
    input,
    expected: psychrolib.GetTDewPointFromRelHum(input.tempC, input.rhPercent / 100),
    tolerance: 0.035,
    reason: 'a pressure difference of 0.25 % moves the dew point by up to 0.035 K',
    source: 'ASHRAE Handbook Fundamentals equations, computed by psychrolib',
    edition: '2017; library 1.1.1',
    provenance: 'published',
  })),
})
