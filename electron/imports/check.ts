import type { LoggerCheck, LoggerReading } from '#model/contract/logger-file.ts'
import { type KnownSeries, overlapWith } from './overlap.ts'
import { type LoggerRows, type ReadOptions, readLoggerFile } from './read.ts'

/** One column ready for the record: only readings that are sound and not there yet. */
export interface ColumnReadings {
  index: number
  quantity: LoggerReading['columns'][number]['quantity']
  at: Float64Array
  value: Float64Array
}

export interface CheckedFile {
  check: LoggerCheck
  columns: ColumnReadings[]
  header: string[]
}

const sampleRows = 12

/**
 * Reads a logger file whole, checks every row and leaves out what the record has already. Nothing is written.
 * @param record readings of the same bay from earlier imports.
 * @throws InputError as `readLoggerFile`.
 */
export async function checkLoggerFile(
  path: string,
  reading: LoggerReading,
  record: readonly KnownSeries[],
  options: ReadOptions,
): Promise<CheckedFile> {
  const read = await readLoggerFile(path, reading, options)
  const { at } = read
  const overlaps = reading.columns.map(({ quantity }, i) =>
    overlapWith(record, { quantity, at, value: read.values[i]! }),
  )
  const columns = reading.columns.map(({ index, quantity }, i) => {
    const { known } = overlaps[i]!
    const value = read.values[i]!
    const isNew = (row: number) => known[row] === 0 && !Number.isNaN(value[row]!)
    return {
      index,
      quantity,
      at: at.filter((_, row) => isNew(row)),
      value: value.filter((_, row) => isNew(row)),
    }
  })
  const knownRows = at.filter((_, row) => isKnown(row, read, overlaps)).length
  return {
    header: read.header,
    columns,
    check: {
      rows: read.rows,
      good: read.good,
      badCount: read.badCount,
      partlyKept: read.partlyKept,
      bad: read.bad,
      firstAt: instant(at[0]),
      lastAt: instant(at.at(-1)),
      perColumn: reading.columns.map(({ index, quantity }, i) => ({
        index,
        quantity,
        ...spanOf(read.values[i]!),
      })),
      duplicates: read.duplicates + knownRows,
      alreadyInRecord: [...new Set(overlaps.flatMap(({ from }) => from))],
      newestFirst: read.newestFirst,
      clockChanges: read.clockChanges,
      sample: sampleOf(read),
    },
  }
}

/** A row counts as known when all the readings it has are. */
function isKnown(row: number, { values }: LoggerRows, overlaps: readonly { known: Uint8Array }[]): boolean {
  return values.every((value, i) => Number.isNaN(value[row]!) || overlaps[i]!.known[row] === 1)
}

function spanOf(values: Float64Array): { good: number; min: number | null; max: number | null } {
  let good = 0
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  for (const value of values) {
    if (Number.isNaN(value)) continue
    good++
    if (value < min) min = value
    if (value > max) max = value
  }
  return good === 0 ? { good, min: null, max: null } : { good, min, max }
}

/** Rows spread evenly over the file, so that its end is seen as well as its beginning. */
function sampleOf({ at, values }: LoggerRows): LoggerCheck['sample'] {
  const count = Math.min(sampleRows, at.length)
  return Array.from({ length: count }, (_, i) => {
    const row = count === 1 ? 0 : Math.round((i * (at.length - 1)) / (count - 1))
    return {
      at: new Date(at[row]!).toISOString(),
      values: values.map((value) => (Number.isNaN(value[row]!) ? null : value[row]!)),
    }
  })
}

function instant(at: number | undefined): string | null {
  return at === undefined ? null : new Date(at).toISOString()
}
