import { type Cell, harmless, headingOf, type Table } from './table.ts'

/**
 * Returns a table as CSV in UTF-8 with a byte order mark: a heading with units, CRLF, numbers with a decimal point and all
 * their digits, yes and no for what is true and not.
 * @source RFC 4180 @provenance published
 */
export function csvText({ columns, rows }: Table): string {
  const lines = [columns.map((column) => quoted(headingOf(column))), ...rows.map((row) => row.map(cellText))]
  return `\uFEFF${lines.map((line) => line.join(',')).join('\r\n')}\r\n`
}

function cellText(cell: Cell): string {
  if (cell === null) return ''
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : ''
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no'
  return quoted(cell)
}

function quoted(text: string): string {
  const safe = harmless(text)
  return /[",\r\n]/.test(safe) || safe !== safe.trim() ? `"${safe.replaceAll('"', '""')}"` : safe
}
