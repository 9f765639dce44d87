import { fieldsOfLines, type Separator } from './fields.ts'
import { headerOf } from './header.ts'
import { type Decimal, numberOf } from './numbers.ts'
import type { Sample } from './sample.ts'
import { type DateOrder, wallClockOf } from './wall-clock.ts'

export interface Layout {
  separator: Separator
  decimal: Decimal
  headerRows: number
  header: string[]
  /** Rows of the sample that look like data, cell by cell. */
  data: string[][]
}

/** A reading can name no column beyond these. */
const mostColumns = 200
const separators: Separator[] = [';', '\t', '|', ',']
const calendarOrders: DateOrder[] = ['iso', 'day first', 'month first']

/** Whether a cell can be read as a date in some order of its parts. */
export function looksLikeDate(cell: string): boolean {
  return calendarOrders.some((order) => wallClockOf(cell, order) !== null)
}

/** Whether a cell can be a Unix time; a plain number, so a weaker sign than a date. */
export function looksLikeUnixTime(cell: string): boolean {
  const text = cell.trim()
  return (
    (/^\d{9,10}(?:\.\d+)?$/.test(text) && wallClockOf(text, 'unix seconds') !== null) ||
    (/^\d{12,13}$/.test(text) && wallClockOf(text, 'unix milliseconds') !== null)
  )
}

export function looksLikeNumber(cell: string): boolean {
  return numberOf(cell, '.') !== null || numberOf(cell, ',') !== null
}

/**
 * Returns how a text file is laid out, or null when no separator yields rows with a time and a number.
 * The separator under which most lines look like data wins; where several do, the one least likely to be a decimal
 * comma or part of a text.
 */
export function layoutOf(sample: Sample): Layout | null {
  let best: { separator: Separator; rows: (string[] | null)[]; count: number } | null = null
  for (const separator of separators) {
    const rows = fieldsOfLines(sample.head, separator)
    const count = rows.filter(isDataRow).length
    if (count > (best?.count ?? 0)) best = { separator, rows, count }
  }
  if (best === null) return null
  const { separator, rows } = best
  const width = usualWidth(rows.filter((cells) => cells !== null && isDataRow(cells)) as string[][])
  const headerRows = rows.findIndex((cells) => isDataRow(cells) && cells!.length === width)
  const tailRows = fieldsOfLines(sample.tail, separator)
  const data = [...rows.slice(headerRows), ...tailRows].filter(
    (cells): cells is string[] => isDataRow(cells) && cells!.length === width,
  )
  return {
    separator,
    headerRows,
    decimal: decimalOf(data, separator),
    header: headerOf(sample.head.slice(0, headerRows), separator, width),
    data,
  }
}

/** A row with a date and, beside it, a number; or a Unix time and another number. */
function isDataRow(cells: string[] | null): boolean {
  if (cells === null || cells.length < 2 || cells.length > mostColumns) return false
  const time = cells.findIndex(looksLikeDate)
  const clock = time === -1 ? cells.findIndex(looksLikeUnixTime) : time
  return clock !== -1 && cells.some((cell, i) => i !== clock && looksLikeNumber(cell))
}

function usualWidth(rows: readonly string[][]): number {
  const counts = new Map<number, number>()
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0
}

function decimalOf(data: readonly string[][], separator: Separator): Decimal {
  let commas = 0
  let points = 0
  for (const cells of data.slice(0, 500)) {
    for (const cell of cells) {
      if (looksLikeDate(cell)) continue
      const isPoint = numberOf(cell, '.') !== null
      const isComma = numberOf(cell, ',') !== null
      if (isComma && !isPoint) commas++
      if (isPoint && !isComma) points++
    }
  }
  if (commas !== points) return commas > points ? ',' : '.'
  return separator === ';' ? ',' : '.'
}
