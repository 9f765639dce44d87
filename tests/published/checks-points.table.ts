import { probeCount, probeDepthMm, soundnessPoints } from '#model/checks/index.ts'
import { publishedTable } from './table.ts'

type Input =
  | { what: 'holes'; areaFt2: number }
  | { what: 'depth'; thicknessMm: number; faces: 1 | 2 }
  | { what: 'soundness points'; areaM2: number }

const f2170 = {
  source: 'ASTM F2170',
  edition: '19a',
  provenance: 'quoted second-hand',
  tolerance: 0,
  reason: 'a count or an exact product',
} as const
const annexD = {
  source: 'BS 8204-1',
  edition: '2003+A1:2009',
  clause: 'Annex D',
  provenance: 'quoted second-hand',
  tolerance: 0,
  reason: 'a count',
} as const

export default publishedTable<Input>({
  title: 'checks: number and depth of test points',
  unit: 'points or mm',
  calculate: (input) => {
    if (input.what === 'holes') return probeCount(input)
    return input.what === 'depth' ? probeDepthMm(input) : soundnessPoints(input)
  },
  rows: [
    { name: '1000 ft² need 3 holes', input: { what: 'holes', areaFt2: 1000 }, expected: 3, ...f2170 },
    {
      name: '1001 ft² need 4 holes (our reading)',
      input: { what: 'holes', areaFt2: 1001 },
      expected: 4,
      ...f2170,
      provenance: 'our judgement',
    },
    { name: '3000 ft² need 5 holes', input: { what: 'holes', areaFt2: 3000 }, expected: 5, ...f2170 },
    {
      name: '4500 ft² need 7 holes (our reading)',
      input: { what: 'holes', areaFt2: 4500 },
      expected: 7,
      ...f2170,
      provenance: 'our judgement',
    },
    {
      name: '100 mm drying from one face: 40 mm deep',
      input: { what: 'depth', thicknessMm: 100, faces: 1 },
      expected: 40,
      ...f2170,
    },
    {
      name: '100 mm drying from two faces: 20 mm deep',
      input: { what: 'depth', thicknessMm: 100, faces: 2 },
      expected: 20,
      ...f2170,
    },
    {
      name: '20 m² need 3 drop-weight points',
      input: { what: 'soundness points', areaM2: 20 },
      expected: 3,
      ...annexD,
    },
    {
      name: '60 m² need 9 drop-weight points, 3 for each 20 m²',
      input: { what: 'soundness points', areaM2: 60 },
      expected: 9,
      ...annexD,
    },
  ],
})
