import { materials, simulateDrying } from '#model/drying/index.ts'
import { exactHumidity, solvedHumidity } from './linear-slab.ts'
import { publishedTable } from './table.ts'

type Input = () => number

const dayMs = 86_400_000
const law = { source: 'Conservation of mass', provenance: 'common practice' } as const
const theory = {
  source: 'Order of the scheme, any text on finite volumes',
  provenance: 'common practice',
} as const
const symmetry = { source: 'Symmetry about the middle', provenance: 'common practice' } as const

const dried = (change: Partial<Parameters<typeof simulateDrying>[0]>) =>
  simulateDrying({
    material: materials.cementSandScreed,
    thicknessMm: 65,
    faces: 1,
    climate: { airC: 20, rhPercent: 60 },
    startAt: 0,
    sealedUntil: 7 * dayMs,
    endAt: 67 * dayMs,
    outputEvery: 'day',
    ...change,
  })
const unbalanced =
  (change: Parameters<typeof dried>[0]): Input =>
  () =>
    dried(change).balanceErrorKgPerM2

const early = { biot: 5, days: 7, share: 0.4 }
const error = (look: typeof early, cells: number, stepHours: number) =>
  solvedHumidity({ ...look, cells, stepHours }) - exactHumidity(look)

/** What no measurement is needed for: mass, symmetry, and errors that shrink as they should. */
export default publishedTable<Input>({
  title: 'drying: mass, symmetry and order of convergence',
  unit: 'own unit of each row',
  calculate: (look) => look(),
  rows: [
    ...(
      [
        ['cement-sand, 65 mm', {}],
        ['cement-sand, 200 mm, both faces', { thicknessMm: 200, faces: 2 }],
        [
          'calcium sulfate, 40 mm, 5 °C and 95 %',
          { material: materials.calciumSulfateScreed, thicknessMm: 40, climate: { airC: 5, rhPercent: 95 } },
        ],
        [
          'dense concrete, 300 mm, 35 °C and 10 %',
          { material: materials.denseConcrete, thicknessMm: 300, climate: { airC: 35, rhPercent: 10 } },
        ],
        ['cement-sand with a skin of 5 m', { skinSdM: 5 }],
      ] as [string, Parameters<typeof dried>[0]][]
    ).map(([name, change]) => ({
      name: `water that is nowhere [kg/m²]: ${name}`,
      input: unbalanced(change),
      expected: 0,
      tolerance: 1e-9,
      reason: 'rounding only',
      ...law,
    })),
    {
      name: 'order in cell width',
      input: () => {
        const look = { biot: 5, days: 28, share: 0.4 }
        return Math.log2(error(look, 10, 0.05) / error(look, 20, 0.05))
      },
      expected: 2,
      tolerance: 0.3,
      reason: 'the error of the step is still in it',
      ...theory,
    },
    {
      name: 'order in the step',
      input: () => Math.log2(error(early, 160, 4) / error(early, 160, 2)),
      expected: 1,
      tolerance: 0.15,
      reason: 'the error of the cells is still in it',
      ...theory,
    },
    {
      name: 'both faces against twice the half layer: water given off in 60 days [kg/m²]',
      input: () =>
        dried({ faces: 2, numerics: { cells: 80 } }).evaporatedKgPerM2.at(-1)! -
        2 * dried({ thicknessMm: 32.5, numerics: { cells: 40 } }).evaporatedKgPerM2.at(-1)!,
      expected: 0,
      tolerance: 5e-4,
      reason: 'the same cells, solved to 1e-7',
      ...symmetry,
    },
    {
      name: 'both faces: profile from above less profile from below, largest [% RH]',
      input: () => {
        const { rhPercent } = dried({ faces: 2 }).profile(40 * dayMs)
        return Math.max(...rhPercent.map((rh, i) => Math.abs(rh - rhPercent[rhPercent.length - 1 - i]!)))
      },
      expected: 0,
      tolerance: 1e-4,
      reason: 'solved to 1e-7 a step, 800 steps',
      ...symmetry,
    },
  ],
})
