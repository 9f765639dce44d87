import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { csvOf, fileNameFrom } from '#renderer/charts/table.ts'

const table = (rows: (string | number | null)[][]) => ({
  title: 'x',
  columns: [{ name: 'What' }, { name: 'Value', unit: '°C' }],
  rows,
})

describe('a chart saved as CSV', () => {
  it('CHART-15: a text that a spreadsheet would run is disarmed, a negative number stays a number', () => {
    const text = csvOf(
      table([
        ['=HYPERLINK("http://x")', -6.5],
        ['+1', 2],
        ['-1', 3],
        ['@a', 4],
        ['  =1+1', 5],
      ]),
    )
    const rows = parse(text, { from_line: 2 }) as string[][]
    expect(rows.map(([what]) => what)).toEqual(['\'=HYPERLINK("http://x")', "'+1", "'-1", "'@a", "'  =1+1"])
    expect(rows.map(([, value]) => Number(value))).toEqual([-6.5, 2, 3, 4, 5])
  })

  it('CHART-16: another reader gets back what was written: commas, quotes, line breaks, empty cells', () => {
    const rows = [
      ['Sheet laid, edges held', 0.1 + 0.2],
      ['said "dry"\nbut was not', null],
      [' spaces ', Number.NaN],
    ]
    const read = parse(csvOf(table(rows)), { columns: true }) as Record<string, string>[]
    expect(read.map((row) => row.What)).toEqual(rows.map(([what]) => what))
    expect(read.map((row) => row['Value [°C]'])).toEqual([String(0.1 + 0.2), '', ''])
  })

  it('CHART-17: a file is named after its chart, without signs that a disk refuses', () => {
    expect(fileNameFrom('Bay F1: air & screed / “frost”', 'csv')).toBe('bay-f1-air-screed-frost.csv')
    expect(fileNameFrom('***', 'png')).toBe('chart.png')
  })
})
