import { describe, expect, test } from 'vitest'
import { loadTables } from './load.ts'
import { measureTable, type RowError } from './measure.ts'
import { publishedTable } from './table.ts'

// A table over a grid has hundreds of rows: they are gated together and the worst is named.
const mostSeparateRows = 60

for (const table of await loadTables()) {
  describe(`PUB: ${table.title}`, () => {
    const { rows } = measureTable(table)
    if (rows.length > mostSeparateRows) {
      test(`all ${rows.length} rows are within their tolerance`, () => {
        expect(rows.filter(({ withinTolerance }) => !withinTolerance).map(explain)).toEqual([])
      })
      return
    }
    for (const each of rows) {
      const { row, withinTolerance } = each
      const origin = [row.source, row.edition, row.clause, row.provenance].filter(Boolean).join(', ')
      test(`${row.name} (${origin})`, () => expect(withinTolerance, explain(each)).toBe(true))
    }
    function explain({ row, calculated }: RowError): string {
      return `${row.name}: calculated ${calculated}, expected ${row.expected} ± ${row.tolerance} ${table.unit} (${row.reason})`
    }
  })
}

describe('PUB: the error measure', () => {
  const row = {
    name: 'x',
    expected: 1,
    tolerance: 0.1,
    reason: 'r',
    source: 's',
    provenance: 'our judgement',
  } as const
  const tableOf = (values: number[]) =>
    publishedTable<number>({
      title: 't',
      unit: '',
      calculate: (x) => x,
      rows: values.map((input) => ({ ...row, input })),
    })

  test('a value outside its tolerance counts as failed', () => {
    expect(measureTable(tableOf([1, 1.05, 1.2])).failed).toBe(1)
  })
  test('a calculation that gives no number fails and cannot pass as zero error', () => {
    const measured = measureTable(tableOf([Number.NaN]))
    expect(measured.failed).toBe(1)
    expect(measured.max).toBe(Number.POSITIVE_INFINITY)
  })
  test('a table without rows is refused', () => {
    expect(() => measureTable(tableOf([]))).toThrow('proves nothing')
  })
  test('mean, 90 % point and largest error are those of the sorted errors', () => {
    const measured = measureTable(tableOf([1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9]))
    expect(measured.mean).toBeCloseTo(0.45, 10)
    expect(measured.p90).toBeCloseTo(0.8, 10)
    expect(measured.max).toBeCloseTo(0.9, 10)
  })
})
