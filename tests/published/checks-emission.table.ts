import { emissionRate } from '#model/checks/index.ts'
import { publishedTable } from './table.ts'

type Input = { unit: 'lb' | 'g'; gainG: number; hours: number; areaFt2: number }

const domeAreaFt2 = (70 - 5.94) / 144
/** The area that a kit with the printed constant 117.909 implies. */
const otherKitFt2 = 24_000 / (453.612 * 117.909)
const printed = {
  tolerance: 0.01,
  reason: 'the pages round, and use 453.612 g for the pound of 453.59237 g',
  source: 'ASTM F1869, worked example of a kit’s instructions',
  provenance: 'quoted second-hand',
} as const

export default publishedTable<Input>({
  title: 'checks: vapour emission of a calcium chloride dish',
  unit: 'lb/(1000 ft²·24 h) or g/(m²·24 h)',
  calculate: ({ unit, ...args }) => {
    const { lbPer1000ft2Per24h, gPerM2Per24h } = emissionRate(args)
    return unit === 'lb' ? lbPer1000ft2Per24h : gPerM2Per24h
  },
  rows: [
    {
      name: 'A: 3.0 g in 72 h',
      input: { unit: 'lb', gainG: 3, hours: 72, areaFt2: domeAreaFt2 },
      expected: 4.955,
      ...printed,
    },
    {
      name: 'B: 3.0 g in 72 h, dish not deducted',
      input: { unit: 'lb', gainG: 3, hours: 72, areaFt2: 0.486 },
      expected: 4.54,
      ...printed,
    },
    {
      name: 'C: 33.0 to 38.0 g in 72 h, another kit',
      input: { unit: 'lb', gainG: 5, hours: 72, areaFt2: otherKitFt2 },
      expected: 8.19,
      ...printed,
    },
    {
      name: '2.0 g in 60 h',
      input: { unit: 'lb', gainG: 2, hours: 60, areaFt2: domeAreaFt2 },
      expected: 3.964,
      ...printed,
      source: 'ASTM F1869 formula, worked by hand',
      provenance: 'from memory',
    },
    {
      name: '3 lb are 14.65 g/(m²·24 h)',
      input: { unit: 'g', gainG: (3 * 453.59237) / 1000, hours: 24, areaFt2: 1 },
      expected: 14.647,
      tolerance: 0.001,
      reason: 'rounded to 0.001',
      source: 'International pound and foot, worked by hand',
      provenance: 'published',
    },
  ],
})
