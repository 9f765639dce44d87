import { readFile } from 'node:fs/promises'
import { appendLoggerImport, closeRecord, openRecord } from '#db/index.ts'
import type { LoggerReading } from '#model/contract/logger-file.ts'
import { InputError } from '#model/errors.ts'
import { newEntry } from '#model/record/entry.ts'
import type { BayId, EntryId, PersonId } from '#model/record/ids.ts'
import { type CheckedFile, checkLoggerFile } from './check.ts'
import { type BayInRecord, recordOfBay } from './known-series.ts'
import { readAsText } from './read-as.ts'

export interface KeepInput {
  recordFile: string
  bay: BayId
  /** Where the file waits, and what the person's file was called. */
  path: string
  fileName: string
  reading: LoggerReading
  entry: EntryId
  person: PersonId
  acceptBadRows: boolean
  now: number
}

export interface Kept {
  entry: EntryId
  readings: number
  /** Rows with something wrong. */
  refused: number
}

/**
 * Reads a logger file and writes it into the record: one entry, the readings that are new and the original bytes, in
 * one transaction. Asked again with the same entry, it answers as before and writes nothing.
 * @throws InputError when rows are bad and were not accepted, or nothing new is left; CorrectionConflict when the same
 *   file is in the record; what `readLoggerFile` and `appendLoggerImport` throw. Nothing is written then.
 */
export async function keepLoggerFile(
  input: KeepInput,
  onProgress: (done: number, of: number) => void,
): Promise<Kept> {
  const { recordFile, bay, path, reading, now } = input
  const place = recordOfBay(recordFile, bay, now)
  // What this very entry has written in an earlier attempt is not in its own way.
  const others = place.known.filter(({ entry }) => entry !== input.entry)
  const file = await checkLoggerFile(path, reading, others, { now, onProgress })
  const columns = file.columns.filter(({ at }) => at.length > 0)
  requireWorthKeeping(file, columns.length, input.acceptBadRows)

  const entry = entryOf(input, file, place)
  const original = await readFile(path)
  const record = openRecord(recordFile, { now, skipLook: true })
  try {
    const written = appendLoggerImport(record, entry, columns, original, { recordedAt: now })
    return {
      entry: written.id,
      readings: columns.reduce((sum, { at }) => sum + at.length, 0),
      refused: file.check.badCount,
    }
  } finally {
    closeRecord(record)
  }
}

function requireWorthKeeping({ check }: CheckedFile, columns: number, acceptBadRows: boolean): void {
  const { badCount, rows, alreadyInRecord } = check
  if (badCount > 0 && !acceptBadRows) {
    const count = badCount === 1 ? '1 row has' : `${badCount.toLocaleString('en-GB')} rows have`
    throw new InputError(
      'acceptBadRows',
      `${count} something wrong. Look at them, and say that they may be left out, or mend the file.`,
    )
  }
  if (columns > 0) return
  const because =
    alreadyInRecord.length > 0
      ? `All its readings are in the record already: ${alreadyInRecord.join('; ')}.`
      : rows === 0
        ? 'The file holds no rows below the heading.'
        : 'No row of the file could be read this way.'
  throw new InputError('reading', `There is nothing to keep. ${because}`)
}

function entryOf(input: KeepInput, { columns, header, check }: CheckedFile, place: BayInRecord) {
  const kept = columns.filter(({ at }) => at.length > 0)
  return newEntry.parse({
    id: input.entry,
    project: place.project,
    subject: input.bay,
    kind: 'logger-imported',
    happenedAt: new Date(Math.min(...kept.map(({ at }) => at[0]!))).toISOString(),
    zone: place.timeZone,
    person: input.person,
    source: 'logger',
    body: {
      fileName: input.fileName,
      refused: check.badCount,
      readAs: readAsText(input.reading, header),
      columns: kept.map(({ index, quantity }) => ({ column: columnName(header[index], index), quantity })),
    },
  })
}

function columnName(header: string | undefined, index: number): string {
  const name = header?.trim().slice(0, 180) ?? ''
  return name === '' ? `Column ${index + 1}` : name
}
