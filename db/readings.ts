import { type SeriesQuantity, seriesQuantities } from '#model/record/climate.ts'
import type { CheckedEntry, LedgerEntry } from '#model/record/entry.ts'
import { EntryRefused } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'
import { readingsHash } from './hash.ts'

/** Readings of one column of the file: times ascending [epoch ms] and as many values. */
export interface LoggerSeries {
  quantity: SeriesQuantity
  at: ArrayLike<number>
  value: ArrayLike<number>
}

/** What can be counted of a column of readings. */
export interface Counted {
  heading: string
  readings: number
  firstAt: number
  lastAt: number
  readingsSha256: string
}

/** Checks every reading and counts them. @throws EntryRefused for the first that cannot be kept */
export function countReadings(entry: CheckedEntry, series: readonly LoggerSeries[]): Counted[] {
  const columns = Array.isArray(entry.body.columns)
    ? (entry.body.columns as { column?: unknown; quantity?: unknown }[])
    : []
  const refuse = (field: string, value: unknown, message: string): never => {
    throw new EntryRefused(entry.id, [{ field, value: String(value), message }])
  }
  if (entry.kind !== 'logger-imported') {
    refuse('kind', entry.kind, `Kind is ${entry.kind}; readings can only be kept with logger-imported.`)
  }
  if (series.length === 0)
    refuse('columns', 'nothing', 'Columns are missing; a logger file needs at least one column of readings.')
  if (columns.length !== series.length) {
    refuse(
      'columns',
      columns.length,
      `Columns are ${columns.length} in the entry and ${series.length} in the readings; they must be the same.`,
    )
  }
  return series.map((one, i) => {
    const column = columns[i]!
    if (column.quantity !== one.quantity) {
      const words = `Quantity of column ${i + 1} is ${String(column.quantity)} in the entry and ${one.quantity} in the readings; they must be the same.`
      refuse(`columns.${i}.quantity`, column.quantity, words)
    }
    checkReadings(one, i, refuse)
    return {
      heading: String(column.column ?? ''),
      readings: one.at.length,
      firstAt: one.at[0]!,
      lastAt: one.at[one.at.length - 1]!,
      readingsSha256: readingsHash(one.at, one.value),
    }
  })
}

function checkReadings(
  { quantity, at, value }: LoggerSeries,
  index: number,
  refuse: (field: string, value: unknown, message: string) => never,
): void {
  const { label, unit, hard } = seriesQuantities[quantity]
  const field = `columns.${index}.readings`
  if (at.length === 0) refuse(field, 0, `${label} has no readings; leave the column out.`)
  if (at.length !== value.length) {
    refuse(
      field,
      value.length,
      `${label} has ${at.length} times and ${value.length} values; they must be the same.`,
    )
  }
  for (let i = 0; i < at.length; i++) {
    const number = value[i]!
    if (!(number >= hard[0] && number <= hard[1])) {
      refuse(
        field,
        number,
        `${label}, reading ${i + 1}, is ${number}; it must be a number from ${hard[0]} to ${hard[1]} ${unit}.`,
      )
    }
    const time = at[i]!
    if (!Number.isSafeInteger(time)) {
      refuse(
        field,
        time,
        `${label}, reading ${i + 1}, has the time ${time}; it must be whole milliseconds since 1970.`,
      )
    }
    if (i > 0 && !(time > at[i - 1]!)) {
      refuse(
        field,
        time,
        `${label}, reading ${i + 1}, is at ${new Date(time).toISOString()}; it must be later than the one before.`,
      )
    }
  }
}

const rowsAtOnce = 50

/** Writes one column of readings and seals it: from then on the file refuses to change it. */
export function insertSeries(
  sqlite: Sqlite,
  entry: LedgerEntry,
  { quantity, at, value }: LoggerSeries,
  {
    series,
    position,
    heading,
    readings,
    firstAt,
    lastAt,
    readingsSha256,
  }: Counted & { series: number; position: number },
): void {
  prepared(
    sqlite,
    `insert into series (series, entry, position, subject, quantity, heading, readings, firstAt, lastAt, readingsSha256)
     values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  ).run(
    series,
    entry.id,
    position,
    entry.subject,
    quantity,
    heading,
    readings,
    firstAt,
    lastAt,
    readingsSha256,
  )
  const many = prepared(
    sqlite,
    `insert into readings (series, at, value) values ${Array(rowsAtOnce).fill('(?, ?, ?)').join(', ')}`,
  )
  const one = prepared(sqlite, 'insert into readings (series, at, value) values (?, ?, ?)')
  let i = 0
  for (; i + rowsAtOnce <= at.length; i += rowsAtOnce) {
    const values: number[] = new Array(rowsAtOnce * 3)
    for (let row = 0; row < rowsAtOnce; row++) {
      values[row * 3] = series
      values[row * 3 + 1] = at[i + row]!
      values[row * 3 + 2] = value[i + row]!
    }
    many.run(values)
  }
  for (; i < at.length; i++) one.run(series, at[i], value[i])
  prepared(sqlite, 'update series set sealed = 1 where series = ?').run(series)
}
