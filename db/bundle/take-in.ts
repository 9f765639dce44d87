import { closeSync, createReadStream, openSync, readSync, statSync } from 'node:fs'
import type { LedgerEntry } from '#model/record/entry.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import type { PhotoFormat } from '#model/record/photos.ts'
import { CorrectionConflict, EntryRefused, onDisk, RecordError, UnknownId } from '../errors.ts'
import { prepared, type Sqlite } from '../handles.ts'
import { sha256Hex } from '../hash.ts'
import { mergeOne } from '../merge.ts'
import type { LoggerReadings } from '../merge-readings.ts'
import { type RecordFile, writing } from '../open.ts'
import { keepPhoto, photoSize } from '../photos.ts'
import { BundleFault } from './fault.ts'
import { members } from './format.ts'
import { gapsFor } from './gaps.ts'
import { incomingEntry, requireGround } from './incoming.ts'
import { lineCutter } from './lines.ts'
import { parsedJson } from './manifest.ts'
import { nodeHashing } from './node-hashing.ts'
import { type BundleReport, readBundle } from './read-bundle.ts'

const bytesAtOnce = 1024 * 1024
/** More than a logger file, its readings or a photo can have. */
const mostBytesOfOne = 512 * 1024 * 1024

/** Where a member of a bundle that was checked lies in its file. */
export type Places = ReadonlyMap<string, { offset: number; bytes: number }>

export interface Joined {
  /** Entries that are new here, and those that were here already. */
  added: number
  known: number
  loggerFiles: number
  photos: number
  /** Facts that are in conflict afterwards and were not before. */
  conflicts: number
  /** Entries that it leaves out and that are not here either: the record then holds a part. */
  missing: number
}

/** Checks a bundle that lies in a file, and notes where its members lie. */
export async function checkBundle(
  file: string,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<{ report: BundleReport; places: Places }> {
  const places = new Map<string, { offset: number; bytes: number }>()
  const of = statSync(file).size
  const report = await readBundle(createReadStream(file, { highWaterMark: bytesAtOnce }), nodeHashing, {
    onProgress: (done) => onProgress(done, of),
    onMember: ({ name, bytes }, offset) => places.set(name, { offset, bytes }),
  })
  return { report, places }
}

/**
 * Takes in what a checked bundle holds and this record does not, in one transaction or not at all.
 * @param forGood false: everything is done, counted and undone, to say beforehand what would happen
 * @param now when it is taken in [epoch ms]
 * @throws BundleFault in a sentence that says why nothing was taken in; RecordError busy, full, read-only
 */
export function takeIn(
  record: RecordFile,
  file: string,
  places: Places,
  { forGood, now }: { forGood: boolean; now: number },
): Joined {
  const { write } = writing(record)
  const { sqlite } = write
  const handle = openSync(file, 'r')
  let joined: Joined | null = null
  const undone = new Error('counted and undone')
  try {
    onDisk(record.file, () =>
      sqlite
        .transaction(() => {
          joined = mergeAll(sqlite, record.file, { file, handle, places, forGood, now })
          if (!forGood) throw undone
        })
        .immediate(),
    )
  } catch (cause) {
    if (cause !== undone) throw asFault(cause)
  } finally {
    closeSync(handle)
  }
  return joined!
}

interface Merging {
  file: string
  handle: number
  places: Places
  forGood: boolean
  now: number
}

function mergeAll(sqlite: Sqlite, recordFile: string, merging: Merging): Joined {
  const { handle, places, forGood } = merging
  const conflictsBefore = conflictsIn(sqlite)
  const joined: Joined = { added: 0, known: 0, loggerFiles: 0, photos: 0, conflicts: 0, missing: 0 }
  const photos = new Map<string, PhotoFormat>()
  const gaps = gapsFor(sqlite)
  const cutter = lineCutter(members.entries, (line) => {
    const said = parsedJson(Buffer.from(line).toString('utf8'), members.entries)
    if (typeof said === 'string') {
      gaps.leaveOut(said)
      return
    }
    const entry = incomingEntry(said, sha256Hex(line))
    gaps.give(entry.hash)
    if (isHere(sqlite, entry)) {
      joined.known += 1
      return
    }
    gaps.requireFits(entry)
    requireGround(sqlite, entry)
    joined.added += mergeOne(sqlite, entry, {
      readingsOf: (one) => readingsOf(one, handle, places),
      leftOut: gaps.leftOut,
    })
    if (entry.kind === 'logger-imported' && entry.corrects === null) joined.loggerFiles += 1
    if (entry.kind === 'photo-added') {
      const { sha256, format } = entry.body as BodyOf<'photo-added'>
      photos.set(sha256, format)
    }
  })
  eachPiece(handle, placeOf(places, members.entries), cutter.update)
  cutter.end()
  joined.missing = gaps.keep(merging)
  for (const [sha256, format] of photos) {
    const place = places.get(`photos/${sha256}`)
    if (place === undefined || photoSize(recordFile, sha256, format) === place.bytes) continue
    joined.photos += 1
    if (forGood) takePhoto(recordFile, readWhole(handle, place), sha256, format)
  }
  return { ...joined, conflicts: conflictsIn(sqlite) - conflictsBefore }
}

function isHere(sqlite: Sqlite, { device, deviceSeq, hash }: LedgerEntry): boolean {
  const here = prepared<{ hash: string }>(
    sqlite,
    'select hash from ledger where device = ? and deviceSeq = ?',
  )
  return here.get(device, deviceSeq)?.hash === hash
}

function readingsOf(entry: LedgerEntry, handle: number, places: Places): LoggerReadings {
  const { sha256, columns } = entry.body as BodyOf<'logger-imported'>
  return {
    original: readWhole(handle, placeOf(places, `files/${sha256}`)),
    columns: columns.map(({ readingsSha256 }) => {
      const bytes = readWhole(handle, placeOf(places, `series/${readingsSha256}`))
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length)
      const count = Math.floor(bytes.length / 16)
      const column = { at: new Float64Array(count), value: new Float64Array(count) }
      for (let i = 0; i < count; i++) {
        column.at[i] = view.getFloat64(i * 16, true)
        column.value[i] = view.getFloat64(i * 16 + 8, true)
      }
      return column
    }),
  }
}

function takePhoto(recordFile: string, bytes: Buffer, sha256: string, format: PhotoFormat): void {
  // The bytes were checked a moment ago; should the file have changed since, nothing is taken in.
  if (sha256Hex(bytes) !== sha256) throw new BundleFault(`Photo ${sha256} has other bytes than a moment ago.`)
  keepPhoto(recordFile, bytes, format)
}

function placeOf(places: Places, name: string): { offset: number; bytes: number } {
  const place = places.get(name)
  if (place === undefined) throw new BundleFault(`${name}, which an entry needs, is not in the bundle.`)
  return place
}

function readWhole(handle: number, place: { offset: number; bytes: number }): Buffer {
  if (place.bytes > mostBytesOfOne)
    throw new BundleFault(`A file of ${place.bytes} bytes is more than a record keeps.`)
  const whole = Buffer.alloc(place.bytes)
  let at = 0
  eachPiece(handle, place, (piece) => {
    whole.set(piece, at)
    at += piece.length
  })
  return whole
}

function eachPiece(
  handle: number,
  { offset, bytes }: { offset: number; bytes: number },
  use: (piece: Uint8Array) => void,
): void {
  for (let done = 0; done < bytes; ) {
    const piece = Buffer.allocUnsafe(Math.min(bytesAtOnce, bytes - done))
    const got = readSync(handle, piece, 0, piece.length, offset + done)
    if (got === 0) throw new BundleFault('The bundle became shorter while it was read.')
    done += got
    use(piece.subarray(0, got))
  }
}

function conflictsIn(sqlite: Sqlite): number {
  return prepared<{ count: number }>(sqlite, 'select count(*) as count from facts where conflict = 1').get()!
    .count
}

/** Whatever keeps the entries out is told in one kind of sentence; trouble with the disk stays what it is. */
function asFault(cause: unknown): unknown {
  const told =
    cause instanceof CorrectionConflict ||
    cause instanceof UnknownId ||
    cause instanceof EntryRefused ||
    (cause instanceof RecordError && cause.state === 'foreign')
  return told ? new BundleFault(cause.message) : cause
}
