import { basicDryingShrinkage, dryingShrinkageStrain } from '#model/movement/index.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { what: 'basic'; fcmMPa: number; rhPercent: number } | { what: 'screed'; dryingDays: number }

const hand = { source: 'EN 1992-1-1 Annex B.2 and 3.1.4, worked by hand', provenance: 'from memory' } as const

function basicRows(
  fcmMPa: number,
  name: string,
  values: readonly [number, number, number, number],
): PublishedRow<Input>[] {
  return [40, 50, 60, 80].map((rhPercent, i) => ({
    name: `${name}, class N, ${rhPercent} %`,
    input: { what: 'basic', fcmMPa, rhPercent },
    expected: values[i]!,
    tolerance: 0.06,
    reason: 'rounded to 0.1',
    ...hand,
  }))
}

function tableRow(fcmMPa: number, name: string, rhPercent: number, perMille: number): PublishedRow<Input> {
  return {
    name: `${name} at ${rhPercent} % as Table 3.2 prints it`,
    input: { what: 'basic', fcmMPa, rhPercent },
    expected: perMille * 1000,
    tolerance: 6,
    reason: 'the table prints two decimals of a per mille',
    source: 'EN 1992-1-1',
    clause: 'Table 3.2',
    provenance: 'from memory',
  }
}

const screedRow = (dryingDays: number, expected: number): PublishedRow<Input> => ({
  name: `65 mm drying from one face at 60 %, ${dryingDays} drying days`,
  input: { what: 'screed', dryingDays },
  expected,
  tolerance: 0.06,
  reason: 'rounded to 0.1',
  ...hand,
})

export default publishedTable<Input>({
  title: 'movement: drying shrinkage',
  unit: '10⁻⁶',
  calculate: (input) =>
    1e6 *
    (input.what === 'basic'
      ? basicDryingShrinkage(input.fcmMPa, 'N', input.rhPercent)
      : dryingShrinkageStrain({
          fcmMPa: 28,
          cementClass: 'N',
          rhPercent: 60,
          notionalSizeMm: 130,
          ageDays: 7 + input.dryingDays,
          curedDays: 7,
        })),
  rows: [
    ...basicRows(28, 'C20', [581.6, 543.7, 487.2, 303.2]),
    ...basicRows(38, 'C30', [515.9, 482.2, 432.1, 269]),
    tableRow(28, 'C20', 40, 0.58),
    tableRow(28, 'C20', 60, 0.49),
    tableRow(28, 'C20', 80, 0.3),
    screedRow(7, 49.1),
    screedRow(28, 149.2),
    screedRow(90, 280.5),
    screedRow(365, 400.2),
  ],
})
