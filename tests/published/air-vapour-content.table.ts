import { absoluteHumidityGPerM3 } from '#model/air/index.ts'
import { airGrid, psychrolib } from './psychrolib.ts'
import { publishedTable } from './table.ts'

const seaLevelPa = 101_325

function gramsPerM3(tempC: number, rhPercent: number): number {
  const ratio = psychrolib.GetHumRatioFromRelHum(tempC, rhPercent / 100, seaLevelPa)
  return (1000 * ratio) / psychrolib.GetMoistAirVolume(tempC, ratio, seaLevelPa)
}

export default publishedTable<{ tempC: number; rhPercent: number }>({
  title: 'air: vapour content, −10 to 40 °C and 5 to 100 %',
  unit: 'g/m³',
  calculate: ({ tempC, rhPercent }) => absoluteHumidityGPerM3(tempC, rhPercent),
  rows: airGrid.map((input) => {
    const expected = gramsPerM3(input.tempC, input.rhPercent)
    return {
      name: `vapour content at ${input.tempC} °C, ${input.rhPercent} %`,
      input,
      expected,
      tolerance: 0.004 * expected,
      reason: '0.27 % of the saturation pressure and 0.05 % between the gas constants',
      source: 'ASHRAE Handbook Fundamentals equations, computed by psychrolib at sea level',
      edition: '2017; library 1.1.1',
      provenance: 'published',
    }
  }),
})
