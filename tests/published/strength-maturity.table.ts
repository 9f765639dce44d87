import { maturityCh } from '#model/strength/index.ts'
import { held } from '../model/strength/series.ts'
import { publishedTable } from './table.ts'

const hand = {
  source: 'Worked by hand',
  provenance: 'from memory',
  reason: 'whole numbers, no rounding',
} as const

export default publishedTable<{ parts: readonly (readonly [tempC: number, hours: number])[] }>({
  title: 'strength: maturity, datum −10 °C',
  unit: '°C·h',
  calculate: ({ parts }) => maturityCh(held(parts), -10) ?? Number.NaN,
  rows: [
    {
      name: '24 h at 10 °C, datum −10 °C: 480 °C·h',
      input: { parts: [[10, 24]] },
      expected: 480,
      tolerance: 1e-6,
      ...hand,
    },
    {
      name: '24 h at 20 °C: 720 °C·h',
      input: { parts: [[20, 24]] },
      expected: 720,
      tolerance: 1e-6,
      ...hand,
    },
    {
      name: '72 h at 5 °C: 1080 °C·h',
      input: { parts: [[5, 72]] },
      expected: 1080,
      tolerance: 1e-6,
      ...hand,
    },
    {
      name: '7 days at 20 °C: 5040 °C·h',
      input: { parts: [[20, 168]] },
      expected: 5040,
      tolerance: 1e-6,
      ...hand,
    },
  ],
})
