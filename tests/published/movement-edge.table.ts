import { edgeStripMm, thermalMovementMm } from '#model/movement/index.ts'
import { publishedTable } from './table.ts'

const bay = { lengthM: 8, deltaC: 30, alphaPerK: 12e-6, strain: 0, compressible: 0.7 }
const hand = {
  source: 'Worked by hand: 8 m, 30 K, 12·10⁻⁶ 1/K, strip 70 % compressible',
  provenance: 'from memory',
} as const

export default publishedTable<'movement' | 'strip'>({
  title: 'movement: heat and the edge strip',
  unit: 'mm',
  calculate: (what) => (what === 'movement' ? thermalMovementMm(bay) : edgeStripMm(bay)),
  rows: [
    {
      name: 'movement',
      input: 'movement',
      expected: 2.88,
      tolerance: 1e-9,
      reason: 'exact arithmetic',
      ...hand,
    },
    {
      name: 'edge strip',
      input: 'strip',
      expected: 4.1,
      tolerance: 0.05,
      reason: 'rounded to 0.1 mm',
      ...hand,
    },
  ],
})
