import { conductivityShape } from '#model/drying/pore-law.ts'
import { publishedTable } from './table.ts'

type Input = { faceHumidity: number }

const HALF_SIDE_M = 0.1524
const DAYS = 300
const DIFFUSIVITY_M2_S = 8e-10
const CELLS = 10
const SHAPE = { alpha: 0.1, hc: 0.75, n: 6 }
const gause = {
  source: 'Gause and Tucker 1940, J. Res. NBS 25, RP1334: 12 in cubes, six faces, 300 days',
  provenance: 'quoted second-hand',
} as const

/**
 * Returns the pore humidity in the middle of the cube after 300 days [%]. An eighth of it, explicit steps; the
 * potential of the shape under test drives it, at constant capacity.
 */
function middleOfCube(faceHumidity: number): number {
  const width = HALF_SIDE_M / CELLS
  const steps = Math.ceil((DAYS * 86_400) / ((0.9 * width * width) / (6 * DIFFUSIVITY_M2_S)))
  const gain = (DAYS * 86_400) / steps / (width * width)
  const nodes = 2000
  const table = new Float64Array(nodes + 2)
  for (let i = 1; i < table.length; i++) {
    table[i] =
      table[i - 1]! + (DIFFUSIVITY_M2_S * conductivityShape(Math.min(1, (i - 0.5) / nodes), SHAPE)) / nodes
  }
  const potentialOf = (h: number) => {
    const k = Math.min(nodes, Math.floor(h * nodes))
    return table[k]! + (h * nodes - k) * (table[k + 1]! - table[k]!)
  }
  const face = potentialOf(faceHumidity)
  const h = new Float64Array(CELLS ** 3).fill(0.98)
  const potential = new Float64Array(CELLS ** 3)
  const strides = [1, CELLS, CELLS * CELLS]
  for (let step = 0; step < steps; step++) {
    for (let i = 0; i < h.length; i++) potential[i] = potentialOf(h[i]!)
    for (let i = 0; i < h.length; i++) {
      let inflow = 0
      for (const stride of strides) {
        const place = Math.floor(i / stride) % CELLS
        if (place > 0) inflow += potential[i - stride]! - potential[i]!
        inflow += place < CELLS - 1 ? potential[i + stride]! - potential[i]! : 2 * (face - potential[i]!)
      }
      h[i]! += gain * inflow
    }
  }
  return 100 * h[0]!
}

/** A fit, not a test: the shape of conductivity and one rate were chosen on these two numbers. */
export default publishedTable<Input>({
  title: 'drying: cubes of 1940, to which the shape of conductivity was fitted',
  unit: '% RH',
  calculate: ({ faceHumidity }) => middleOfCube(faceHumidity),
  rows: [
    {
      name: 'middle, faces at 50 % (fit)',
      input: { faceHumidity: 0.5 },
      expected: 66,
      tolerance: 2,
      reason: 'fitted by eye, measured to 1 %',
      ...gause,
    },
    {
      name: 'middle, faces at 20 % (fit)',
      input: { faceHumidity: 0.2 },
      expected: 60,
      tolerance: 4,
      reason: 'fitted by eye; one rate serves both cubes',
      ...gause,
    },
  ],
})
