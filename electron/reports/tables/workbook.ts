import exceljs from 'exceljs'
import { harmless, headingOf, type Table } from './table.ts'
import { unzipped, zipOf } from './zip.ts'

/** More rows than this no spreadsheet opens, heading included. */
const mostRows = 1_048_576

/**
 * Returns the tables as one XLSX workbook, a sheet each, headings fixed at the top. A table longer than a sheet can be is
 * cut, and the sheet says so. The library dates its archive by the clock, so the archive is packed again with the date of
 * the record: the same tables then give the same bytes.
 * @param at the instant that the tables stand on [epoch ms]
 */
export async function workbookOf(tables: readonly Table[], at: number): Promise<Buffer> {
  const book = new exceljs.Workbook()
  const date = new Date(at)
  book.creator = 'Bayledger'
  book.lastModifiedBy = 'Bayledger'
  book.created = date
  book.modified = date
  const names = new Set<string>()
  for (const { name, columns, rows } of tables) {
    const sheet = book.addWorksheet(sheetName(name, names), { views: [{ state: 'frozen', ySplit: 1 }] })
    sheet.addRow(columns.map((column) => harmless(headingOf(column)))).font = { bold: true }
    const kept = rows.length < mostRows ? rows : rows.slice(0, mostRows - 2)
    for (const row of kept)
      sheet.addRow(
        row.map((cell) =>
          typeof cell === 'string'
            ? harmless(cell)
            : typeof cell === 'number' && !Number.isFinite(cell)
              ? null
              : cell,
        ),
      )
    if (kept.length < rows.length)
      sheet.addRow([`Cut: ${rows.length - kept.length} more rows stand in the CSV tables.`])
    for (const [i, column] of columns.entries())
      sheet.getColumn(i + 1).width = Math.min(40, Math.max(10, headingOf(column).length + 2))
  }
  const written = Buffer.from(await book.xlsx.writeBuffer())
  return zipOf(unzipped(written), at)
}

/** At most 31 letters, each name once. */
function sheetName(name: string, taken: Set<string>): string {
  const plain = name.replaceAll(/[[\]:*?/\\]/g, ' ').slice(0, 31)
  let unique = plain
  for (let i = 2; taken.has(unique); i++) unique = `${plain.slice(0, 31 - String(i).length - 1)} ${i}`
  taken.add(unique)
  return unique
}
