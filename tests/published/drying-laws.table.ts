import { saturationPressurePa } from '#model/air/index.ts'
import { hydrationGate } from '#model/drying/hydration.ts'
import { modelCodeShape } from '#model/drying/index.ts'
import { cementPasteBsb, conductivityShape } from '#model/drying/pore-law.ts'
import { airPermeability, bareFaceTransfer, transportFactor } from '#model/drying/vapour.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = () => number

const shape = { alpha: 0.1, hc: 0.75, n: 6 }
const codeShape = {
  alpha: modelCodeShape.conductivityAlpha.value,
  hc: modelCodeShape.conductivityHc.value,
  n: modelCodeShape.conductivityN.value,
}
const pairs = (
  what: string,
  of: (x: number) => number,
  values: [number, number][],
  tolerance: number,
  origin: { source: string; provenance: PublishedRow['provenance'] },
) =>
  values.map(
    ([x, expected]): PublishedRow<Input> => ({
      name: `${what} at ${x}`,
      input: () => of(x),
      expected,
      tolerance,
      reason: 'rounding of the value',
      ...origin,
    }),
  )
const bazant = {
  source: 'Bazant and Najjar 1972, Mater. Constr. 5:3, evaluated by hand',
  provenance: 'from memory',
} as const
const code = { source: 'CEB-FIP MC90 2.1.9.3, evaluated by hand', provenance: 'from memory' } as const
const xi = {
  source: 'Xi, Bazant, Molina and Jennings 1994, Adv. Cem. Based Mater. 1:248, evaluated by hand',
  provenance: 'from memory',
} as const
const bsb = (waterCement: number) => cementPasteBsb(waterCement, 90, 'I')

export default publishedTable<Input>({
  title: 'drying: laws of the pores and of the face',
  unit: 'own unit of each row',
  calculate: (input) => input(),
  rows: [
    ...pairs(
      'temperature factor',
      transportFactor,
      [
        [5, 0.421],
        [10, 0.568],
        [15, 0.757],
        [20, 1],
        [25, 1.308],
        [30, 1.697],
      ],
      5.1e-4,
      bazant,
    ),
    ...pairs(
      'shape (0.10, 0.75, 6)',
      (h) => conductivityShape(h, shape),
      [
        [0.95, 1],
        [0.9, 0.996],
        [0.85, 0.96],
        [0.8, 0.813],
        [0.75, 0.55],
        [0.7, 0.326],
        [0.6, 0.15],
      ],
      7e-4,
      bazant,
    ),
    ...pairs(
      'shape (0.05, 0.80, 15)',
      (h) => conductivityShape(h, codeShape),
      [
        [0.95, 1],
        [0.9, 1],
        [0.85, 0.987],
        [0.8, 0.525],
        [0.75, 0.0823],
        [0.7, 0.0522],
        [0.6, 0.05],
      ],
      5.1e-4,
      code,
    ),
    ...pairs(
      'hydration gate',
      hydrationGate,
      [
        [0.95, 0.981],
        [0.9, 0.76],
        [0.8, 0.165],
        [0.7, 0.0376],
      ],
      6e-4,
      { source: 'Bazant, 1/(1+(7.5-7.5h)^4), evaluated by hand', provenance: 'from memory' },
    ),
    ...pairs('BSB C', (wc) => bsb(wc).gabC, [[0.55, 18.478]], 1e-3, xi),
    ...pairs(
      'BSB k',
      (wc) => bsb(wc).gabK,
      [
        [0.55, 0.76597],
        [0.4, 0.70214],
      ],
      1e-5,
      xi,
    ),
    ...pairs(
      'BSB monolayer',
      (wc) => bsb(wc).monolayerPerCement,
      [
        [0.55, 0.064753],
        [0.4, 0.06077],
      ],
      1e-6,
      xi,
    ),
    ...pairs(
      'BSB layers',
      (wc) => bsb(wc).layers,
      [
        [0.55, 4.5173],
        [0.4, 3.5493],
      ],
      1e-4,
      xi,
    ),
    {
      name: 'permeability of still air at 20 °C, × 1e10',
      input: () => airPermeability(20) * 1e10,
      expected: 1.94,
      tolerance: 0.005,
      reason: 'printed to three figures',
      source: 'Schirmer 1938, evaluated by hand',
      provenance: 'from memory',
    },
    {
      name: 'flux from free water, 20 °C, 60 %, 0.1 m/s',
      input: () => bareFaceTransfer(0.1) * saturationPressurePa(20) * 0.4 * 3.6e6,
      expected: 103.5,
      tolerance: 0.1,
      reason: 'printed to 0.1 g/(m² h)',
      source: 'EN ISO 6946 h = 4 + 4v and the Lewis relation, evaluated by hand',
      provenance: 'from memory',
    },
  ],
})
