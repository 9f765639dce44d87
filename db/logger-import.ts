import { deflateSync } from 'node:zlib'
import { problemAt } from '#model/record/check-body.ts'
import type { CheckedEntry, LedgerEntry } from '#model/record/entry.ts'
import { CorrectionConflict, EntryRefused, onDisk } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import { type AppendOptions, appendOne, writtenAlready } from './ledger.ts'
import { type RecordFile, writing } from './open.ts'
import { findFileBySha256 } from './queries/files.ts'
import { type Counted, countReadings, insertSeries, type LoggerSeries } from './readings.ts'

export type { LoggerSeries }

/**
 * Writes a logger file: one entry, its readings and the original bytes, in one transaction or not at all.
 * What can be counted is counted here and put into the body: `sha256`, `bytes`, `rows`, `firstAt`, `lastAt`, and for
 * each column `series`, `readings` and `readingsSha256`. The caller's body says the rest: `fileName`, `readAs`,
 * `refused`, and `columns` with `column` and `quantity` in the order of `series`.
 * @throws EntryRefused for readings out of range, out of order or not numbers; CorrectionConflict when the file was
 *   read before (it names the entry); and whatever `appendEntries` throws
 */
export function appendLoggerImport(
  record: RecordFile,
  entry: CheckedEntry,
  series: readonly LoggerSeries[],
  original: Buffer,
  { recordedAt }: AppendOptions,
): LedgerEntry {
  const { write, device } = writing(record)
  const sha256 = sha256Hex(original)
  const counted = countReadings(entry, series)
  const packed = deflateSync(original)
  const { sqlite } = write
  return onDisk(record.file, () =>
    sqlite
      .transaction(() => {
        const before = sameImport(sqlite, entry, sha256, counted)
        if (before !== null) return before
        requireNotReadBefore(record, entry, sha256)
        const first = nextSeries(sqlite)
        const body = bodyWith(entry, series, counted, { sha256, bytes: original.length, first })
        const written = appendOne(
          write,
          device.id,
          { ...entry, body },
          { recordedAt, company: new Set(), readings: true },
        )
        if (prepared(sqlite, 'select 1 from files where sha256 = ?').get(sha256) === undefined) {
          prepared(sqlite, 'insert into files (sha256, bytes, packed, packedSha256) values (?, ?, ?, ?)').run(
            sha256,
            original.length,
            packed,
            sha256Hex(packed),
          )
        }
        series.forEach((one, position) => {
          insertSeries(sqlite, written, one, { ...counted[position]!, position, series: first + position })
        })
        return written
      })
      .immediate(),
  )
}

function bodyWith(
  entry: CheckedEntry,
  series: readonly LoggerSeries[],
  counted: readonly Counted[],
  { sha256, bytes, first }: { sha256: string; bytes: number; first: number },
): Record<string, unknown> {
  const columns = entry.body.columns as Record<string, unknown>[]
  const body = {
    ...entry.body,
    sha256,
    bytes,
    rows: counted.reduce((sum, one) => sum + one.readings, 0),
    firstAt: new Date(Math.min(...counted.map((one) => one.firstAt))).toISOString(),
    lastAt: new Date(Math.max(...counted.map((one) => one.lastAt))).toISOString(),
    columns: series.map((one, i) => ({
      ...columns[i],
      quantity: one.quantity,
      series: first + i,
      readings: counted[i]!.readings,
      readingsSha256: counted[i]!.readingsSha256,
    })),
  }
  for (const name of ['sha256', 'bytes'] as const) {
    if (entry.body[name] === undefined || entry.body[name] === body[name]) continue
    const message = `does not agree with the file, which has ${body[name]}`
    throw new EntryRefused(entry.id, [problemAt(entry.kind, entry.body, name, message)])
  }
  return body
}

/** The entry that an earlier, answered or unanswered, call with the same id and the same file has written. */
function sameImport(
  sqlite: Sqlite,
  entry: CheckedEntry,
  sha256: string,
  counted: readonly Counted[],
): LedgerEntry | null {
  const known = prepared<{ body: string }>(sqlite, 'select body from ledger where id = ?').get(entry.id)
  if (known === undefined) return null
  const body = JSON.parse(known.body) as { sha256?: string; columns?: { readingsSha256: string }[] }
  const hashes = body.columns?.map((column) => column.readingsSha256).join()
  const same = body.sha256 === sha256 && hashes === counted.map((one) => one.readingsSha256).join()
  return writtenAlready(sqlite, same ? { ...entry, body: JSON.parse(known.body) } : entry)
}

function requireNotReadBefore(record: RecordFile, entry: CheckedEntry, sha256: string): void {
  const earlier = findFileBySha256(record.write!, sha256, entry.project)
  if (earlier === null) return
  const message = `This file was read before, by entry ${earlier.entry} of ${earlier.at}. Nothing was written; withdraw that entry first if it was read wrongly.`
  throw new CorrectionConflict(message, earlier.entry)
}

function nextSeries(sqlite: Sqlite): number {
  return prepared<{ next: number }>(sqlite, 'select coalesce(max(series), 0) + 1 as next from series').get()!
    .next
}
