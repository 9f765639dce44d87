import {
  type AgeMethod,
  ageForStrengthDays,
  agingFactor,
  type CementClass,
  equivalentAgeDays,
} from '#model/strength/index.ts'
import { held } from '../model/strength/series.ts'
import { publishedTable } from './table.ts'

type Input =
  | {
      what: 'age'
      days: readonly (readonly [tempC: number, hours: number])[]
      method: AgeMethod
      datumC?: number
    }
  | { what: 'age to 5 N/mm²'; cementClass: CementClass; tempC: number }

const coldWeek = [
  [5, 72],
  [12, 96],
] as const
const hand = {
  source: 'Worked by hand',
  provenance: 'from memory',
  reason: 'rounded to the last printed digit',
} as const

const toFive = (cementClass: CementClass, tempC: number, expected: number, tolerance: number) => ({
  name: `days to 5 N/mm² of 28, class ${cementClass}, at ${tempC} °C`,
  input: { what: 'age to 5 N/mm²', cementClass, tempC } as const,
  expected,
  tolerance,
  ...hand,
  source: 'EN 1992-1-1 (3.2) and (B.10), worked by hand',
})

export default publishedTable<Input>({
  title: 'strength: equivalent age of temperature histories',
  unit: 'days',
  calculate: (input) => {
    if (input.what === 'age') {
      return equivalentAgeDays(held(input.days), input.method, { datumC: input.datumC }) ?? Number.NaN
    }
    const factor = input.tempC === 20 ? 1 : agingFactor(input.tempC, 'ec2-b10')
    return ageForStrengthDays(5 / 28, input.cementClass) / factor
  },
  rows: [
    {
      name: '24 h at 10 °C, datum −10 °C: 16 h',
      input: { what: 'age', days: [[10, 24]], method: 'nurse-saul' },
      expected: 16 / 24,
      tolerance: 1e-9,
      ...hand,
    },
    {
      name: '3 days at 5 °C and 4 at 12 °C, Nurse-Saul, datum −10 °C',
      input: { what: 'age', days: coldWeek, method: 'nurse-saul' },
      expected: 4.433,
      tolerance: 0.0006,
      ...hand,
    },
    {
      name: '3 days at 5 °C and 4 at 12 °C, Nurse-Saul, datum 0 °C',
      input: { what: 'age', days: coldWeek, method: 'nurse-saul', datumC: 0 },
      expected: 3.15,
      tolerance: 0.0006,
      ...hand,
    },
    {
      name: '3 days at 5 °C and 4 at 12 °C, EN 1992-1-1 (B.10)',
      input: { what: 'age', days: coldWeek, method: 'ec2-b10' },
      expected: 4.155,
      tolerance: 0.0006,
      ...hand,
    },
    {
      name: '3 days at 5 °C and 4 at 12 °C, Freiesleben Hansen & Pedersen',
      input: { what: 'age', days: coldWeek, method: 'fhp' },
      expected: 3.251,
      tolerance: 0.0006,
      ...hand,
    },
    toFive('R', 20, 0.303, 0.0006),
    toFive('N', 20, 0.45, 0.0006),
    toFive('S', 20, 0.914, 0.0006),
    toFive('R', 5, 0.63, 0.006),
    toFive('N', 5, 0.94, 0.006),
    toFive('S', 5, 1.91, 0.006),
  ],
})
