/** A chart as a table: what each column is, and its rows. The same table is shown, read out and saved. */
export interface ChartTable {
  title: string
  columns: { name: string; unit?: string }[]
  rows: Cell[][]
}
export type Cell = string | number | null

/**
 * Returns the table as CSV (RFC 4180): a heading with units, CRLF, numbers with a decimal point and all digits.
 *
 * A text that a spreadsheet would run as a formula gets an apostrophe in front; a number never does.
 * @provenance common practice
 */
export function csvOf({ columns, rows }: ChartTable): string {
  const heading = columns.map(({ name, unit }) =>
    quoted(unit === undefined || unit === '' ? name : `${name} [${unit}]`),
  )
  const lines = rows.map((row) => row.map(cellText).join(','))
  return `${[heading.join(','), ...lines].join('\r\n')}\r\n`
}

function cellText(cell: Cell): string {
  if (cell === null) return ''
  return typeof cell === 'number' ? (Number.isFinite(cell) ? String(cell) : '') : quoted(cell)
}

function quoted(text: string): string {
  const harmless = /^[\s]*[=+\-@]/.test(text) || /^[\t\r\n]/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(harmless) || harmless !== harmless.trim()
    ? `"${harmless.replaceAll('"', '""')}"`
    : harmless
}

/** A file name from a title: letters, digits and dashes. */
export function fileNameFrom(title: string, ending: string): string {
  const plain = title
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
  return `${plain === '' ? 'chart' : plain.slice(0, 80)}.${ending}`
}
