import { surfaceRhPercent } from '#model/air/index.ts'
import { publishedTable } from './table.ts'

export default publishedTable<{ airC: number; rhPercent: number; surfaceC: number }>({
  title: 'air: humidity at a colder floor',
  unit: '%',
  calculate: surfaceRhPercent,
  rows: [
    {
      name: 'a room at 21 °C and 71 % reads about 80 % over a floor at 19 °C',
      input: { airC: 21, rhPercent: 71, surfaceC: 19 },
      expected: 80.35,
      tolerance: 0.05,
      reason: 'the page says about 80; 80.35 is its sum with the Magnus pressures',
      source: 'British moisture guidance, worked example, recomputed',
      provenance: 'quoted second-hand',
    },
  ],
})
