import { parse } from 'csv-parse/sync'
import exceljs from 'exceljs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvText } from '#electron/reports/tables/csv.ts'
import { harmless, type Table } from '#electron/reports/tables/table.ts'
import { workbookOf } from '#electron/reports/tables/workbook.ts'
import { unzipped, zipOf } from '#electron/reports/tables/zip.ts'

const at = Date.UTC(2026, 10, 25, 14)
const hostile = [
  '=1+1',
  '+1',
  '-1',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  ' =1',
  '\n-1',
  '＝1',
  '=HYPERLINK("http://x","y")',
  "'=1",
  'a,"b"',
  'two\nlines',
  'plain',
]
const tableOf = (cells: readonly string[]): Table => ({
  name: 'names',
  columns: [{ name: '=Name' }, { name: 'Mass', unit: 'kg' }],
  rows: cells.map((cell, i) => [cell, i - 1.5]),
})
/** What a spreadsheet runs: a formula sign as the first thing that is seen, or a tab or return before it. */
const runs = (cell: string) => /^\s*[=+\-@＝＋－＠]/u.test(cell) || /^[\t\r\n]/.test(cell)

describe('the tables', () => {
  it('TABLE-1: no text of a CSV can run as a formula, headings and names among them; numbers stay numbers', () => {
    const rows = parse(csvText(tableOf(hostile)), { bom: true, relax_column_count: true }) as string[][]
    expect(rows[0]).toEqual(["'=Name", 'Mass [kg]'])
    expect(rows).toHaveLength(hostile.length + 1)
    for (const [i, row] of rows.slice(1).entries()) {
      expect(runs(row[0]!), JSON.stringify(row[0])).toBe(false)
      expect([hostile[i], `'${hostile[i]}`]).toContain(row[0])
      expect(row[1]).toBe(String(i - 1.5))
    }
  })

  it('TABLE-2: for any text another program reads back the text, or the text made harmless', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const rows = parse(csvText(tableOf([text])), { bom: true, skip_empty_lines: false }) as string[][]
        expect(rows[1]![0]).toBe(harmless(text))
        expect(runs(rows[1]![0]!)).toBe(false)
      }),
    )
  })

  it('TABLE-3: the workbook opens in another reader, has no formula, and is the same bytes each time', async () => {
    const made = await workbookOf([tableOf(hostile), { ...tableOf(['x']), name: 'names' }], at)
    const book = new exceljs.Workbook()
    await book.xlsx.load(made.buffer.slice(made.byteOffset, made.byteOffset + made.length) as ArrayBuffer)
    expect(book.worksheets.map(({ name }) => name)).toEqual(['names', 'names 2'])
    const sheet = book.worksheets[0]!
    expect(sheet.getCell('B1').value).toBe('Mass [kg]')
    expect(sheet.getCell('B2').value).toBe(-1.5)
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        expect(cell.type).not.toBe(exceljs.ValueType.Formula)
        if (typeof cell.value === 'string') expect(runs(cell.value), JSON.stringify(cell.value)).toBe(false)
      }),
    )
    expect(made.equals(await workbookOf([tableOf(hostile), { ...tableOf(['x']), name: 'names' }], at))).toBe(
      true,
    )
  })

  it('TABLE-4: an archive gives back its files, whatever their names and bytes', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            name: fc.string({ minLength: 1, maxLength: 20 }),
            bytes: fc.uint8Array({ maxLength: 300 }),
          }),
          { maxLength: 8 },
        ),
        (files) => {
          const back = unzipped(zipOf(files, at))
          expect(back.map(({ name, bytes }) => [name, [...bytes]])).toEqual(
            files.map(({ name, bytes }) => [name, [...bytes]]),
          )
        },
      ),
    )
    expect(() => unzipped(Buffer.from('nothing of the kind'))).toThrow(/no whole zip/)
  })
})
