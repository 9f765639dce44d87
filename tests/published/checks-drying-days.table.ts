import { dryingDays } from '#model/checks/index.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { thicknessMm: number; breakMm: 40 | 50 }

const rulesOf = { 50: effectiveRules('british'), 40: effectiveRules('british', { dryingBreak: 'forty' }) }
const printed = {
  reason: 'whole days',
  tolerance: 0,
  source: 'British screed guidance, worked values',
  provenance: 'quoted second-hand',
} as const
const row = (thicknessMm: number, breakMm: 40 | 50, expected: number): PublishedRow<Input> => ({
  name: `${thicknessMm} mm, break at ${breakMm} mm`,
  input: { thicknessMm, breakMm },
  expected,
  ...printed,
})

export default publishedTable<Input>({
  title: 'checks: days of drying by the rule of thumb',
  unit: 'days',
  calculate: ({ thicknessMm, breakMm }) =>
    dryingDays({ thicknessMm, screed: 'cement-sand', rules: rulesOf[breakMm] }),
  rows: [
    row(40, 50, 40),
    row(50, 50, 50),
    row(60, 50, 70),
    row(65, 50, 80),
    row(68, 50, 86),
    row(70, 50, 90),
    row(75, 50, 100),
    row(100, 50, 150),
    row(40, 40, 40),
    row(50, 40, 60),
    row(60, 40, 80),
    row(65, 40, 90),
    row(75, 40, 110),
    row(100, 40, 160),
  ],
})
