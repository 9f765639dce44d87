import { deflateSync } from 'node:zlib'
import type { CheckedEntry, LedgerEntry } from '#model/record/entry.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { RecordError } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import { countReadings, insertSeries, type LoggerSeries } from './readings.ts'

/** What a logger file held: its bytes, and for each column of the entry the times and values. */
export interface LoggerReadings {
  original: Buffer
  columns: Pick<LoggerSeries, 'at' | 'value'>[]
}

/**
 * Keeps the readings of an entry that came from another record. Its series get numbers of this record; the entry, whose
 * hash covers the numbers it was given at home, stays as it is.
 * @throws RecordError (foreign) when bytes or readings are not those of the entry; EntryRefused for readings that no
 *   record keeps
 */
export function insertReadings(
  sqlite: Sqlite,
  entry: LedgerEntry,
  { original, columns }: LoggerReadings,
): void {
  const body = entry.body as BodyOf<'logger-imported'>
  const series = columns.map(
    (column, i): LoggerSeries => ({ quantity: body.columns[i]!.quantity, ...column }),
  )
  const counted = countReadings(entry as unknown as CheckedEntry, series)
  const same =
    sha256Hex(original) === body.sha256 &&
    original.length === body.bytes &&
    counted.every(
      ({ readings, readingsSha256 }, i) =>
        readings === body.columns[i]!.readings && readingsSha256 === body.columns[i]!.readingsSha256,
    )
  if (!same) {
    throw new RecordError(
      'foreign',
      `The logger file of entry ${entry.deviceSeq} of device ${entry.device} is not the one that the entry names. Nothing was taken in.`,
    )
  }
  if (prepared(sqlite, 'select 1 from files where sha256 = ?').get(body.sha256) === undefined) {
    const packed = deflateSync(original)
    prepared(sqlite, 'insert into files (sha256, bytes, packed, packedSha256) values (?, ?, ?, ?)').run(
      body.sha256,
      original.length,
      packed,
      sha256Hex(packed),
    )
  }
  const first = prepared<{ next: number }>(
    sqlite,
    'select coalesce(max(series), 0) + 1 as next from series',
  ).get()!.next
  series.forEach((one, position) => {
    insertSeries(sqlite, entry, one, { ...counted[position]!, position, series: first + position })
  })
}
