import type { LedgerEntry } from '#model/record/entry.ts'
import { canonicalJson } from './canonical.ts'
import { CorrectionConflict, onDisk, RecordError, UnknownId } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'
import { chainStart, entryHash } from './hash.ts'
import { insertRow } from './ledger.ts'
import { insertReadings, type LoggerReadings } from './merge-readings.ts'
import { type RecordFile, writing } from './open.ts'
import { projectEntry } from './views/project-entry.ts'

/**
 * Takes in entries that another device wrote, as they are: those that are here already are left out, those that are
 * new must continue the chain of their device. Two corrections of one entry are both kept; the fact is then marked as
 * in conflict until a person withdraws one of them. All in one transaction or none.
 * @returns how many were new
 * @throws RecordError (foreign) for an entry whose hash or chain is wrong, or a logger file without its readings;
 *   CorrectionConflict when this device's number holds another entry here; UnknownId when a corrected entry is missing
 */
export function mergeEntries(record: RecordFile, entries: readonly LedgerEntry[]): number {
  const { write } = writing(record)
  return onDisk(record.file, () =>
    write.sqlite
      .transaction(() => entries.reduce((count, entry) => count + mergeOne(write.sqlite, entry), 0))
      .immediate(),
  )
}

export interface MergingOne {
  /** What a logger file held; without it, an entry that names one is refused. */
  readingsOf?: (entry: LedgerEntry) => LoggerReadings
  /** Hashes of entries that a signed tree leaves out: a chain may go on after one of them. */
  leftOut?: ReadonlySet<string>
}

/**
 * One entry inside the caller's transaction.
 * @returns 1 when it was new, 0 when it is here already
 */
export function mergeOne(
  sqlite: Sqlite,
  entry: LedgerEntry,
  { readingsOf, leftOut }: MergingOne = {},
): 0 | 1 {
  const { seq: _, hash, ...said } = entry
  if (entryHash(said) !== hash) throw refused(entry, 'does not have the hash of what it says')
  const here = prepared<{ hash: string; id: string }>(
    sqlite,
    'select hash, id from ledger where device = ? and deviceSeq = ?',
  ).get(entry.device, entry.deviceSeq)
  if (here?.hash === hash) return 0
  if (here !== undefined) {
    const words = `Device ${entry.device} wrote two different entries under number ${entry.deviceSeq}: a copy of the record was continued.`
    throw new CorrectionConflict(words, here.id)
  }
  const last = prepared<{ hash: string; deviceSeq: number }>(
    sqlite,
    'select hash, deviceSeq from ledger where device = ? order by deviceSeq desc limit 1',
  ).get(entry.device)
  const next = (last?.deviceSeq ?? 0) + 1
  const follows = entry.deviceSeq === next && entry.prevHash === (last?.hash ?? chainStart)
  const jumps = entry.deviceSeq > next && leftOut?.has(entry.prevHash) === true
  if (!follows && !jumps) {
    throw refused(entry, 'does not follow the last entry that is known of its device')
  }
  const holdsReadings = entry.kind === 'logger-imported' && entry.corrects === null
  if (holdsReadings && readingsOf === undefined) {
    throw refused(entry, 'comes without the readings of its logger file')
  }
  const corrected = prepared(sqlite, 'select 1 from ledger where id = ?').get(entry.corrects)
  if (entry.corrects !== null && corrected === undefined) throw new UnknownId('entry', entry.corrects)
  const row = {
    ...entry,
    seq: (prepared<{ seq: number | null }>(sqlite, 'select max(seq) as seq from ledger').get()?.seq ?? 0) + 1,
    happenedAt: Date.parse(entry.happenedAt),
    recordedAt: Date.parse(entry.recordedAt),
    body: canonicalJson(entry.body),
    answers: canonicalJson(entry.answers),
  }
  insertRow(sqlite, row)
  if (holdsReadings && readingsOf !== undefined) insertReadings(sqlite, entry, readingsOf(entry))
  projectEntry(sqlite, row)
  return 1
}

function refused(entry: LedgerEntry, why: string): RecordError {
  return new RecordError(
    'foreign',
    `Entry ${entry.deviceSeq} of device ${entry.device} ${why}. Nothing was taken in.`,
  )
}
