import BetterSqlite from 'better-sqlite3'
import type { VerifyEvent, VerifyReport } from '#model/contract/shapes.ts'
import { isKindName, kinds } from '#model/record/kinds.ts'
import { canonicalJson } from './canonical.ts'
import type { ReadHandle, Sqlite } from './handles.ts'
import { chainStart, entryHash } from './hash.ts'
import { insertRow } from './ledger.ts'
import { entryFromRow, type LedgerRow } from './ledger-row.ts'
import { openToRead } from './look.ts'
import { applyMigrations } from './migrate.ts'
import { migrations } from './migrations/index.ts'
import { leftOutBy, partsIn } from './parts.ts'
import { settle } from './pragmas.ts'
import { partFaults } from './verify-parts.ts'
import { namedPhotos, photoFaults, photosWithoutEntry } from './verify-photos.ts'
import { firstFileFault, firstSeriesFault } from './verify-series.ts'
import { firstViewDifference } from './verify-views.ts'
import { projectEntry } from './views/project-entry.ts'

const entriesAtOnce = 500

/**
 * Checks the whole record: replays the ledger into fresh views and compares them with the present ones, follows the
 * chain of each device, and compares every body, part, series, file and photo with its hash. It reads one consistent moment over a
 * connection of its own and stops at the first difference, which it tells in words.
 */
export async function verify(
  read: ReadHandle,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<VerifyReport> {
  for (const event of verifySteps(read)) {
    if (event.kind === 'done') return event.report
    onProgress(event.done, event.of)
    await new Promise((resolve) => setImmediate(resolve))
  }
  throw new Error('the verification ended without a report')
}

/** The same step by step, for a caller that wants to pause or to stop. */
export function* verifySteps(read: ReadHandle): Generator<VerifyEvent> {
  const present = openToRead(read.file)
  const fresh = new BetterSqlite(':memory:')
  try {
    settle(present, read.file, present.memory ? 'read in memory' : 'read')
    present.exec('begin')
    fresh.pragma('foreign_keys = 0')
    fresh.transaction(() => applyMigrations(fresh, migrations, 0))()
    yield* compare(present, fresh, read.file)
  } finally {
    fresh.close()
    present.close()
  }
}

function* compare(present: Sqlite, fresh: Sqlite, file: string): Generator<VerifyEvent> {
  const count = (table: string) => present.prepare(`select count(*) from ${table}`).pluck().get() as number
  const [entries, series, files] = [count('ledger'), count('series'), count('files')]
  const photos = namedPhotos(present)
  const parts = partsIn(present)
  const leftOut = leftOutBy(parts)
  // The series and the files each have one more step at the end, for what is missing; then come the views.
  const of = entries + parts.length + (series + 1) + (files + 1) + photos.length + 1
  const heads = new Map<string, Head>()
  const report = (firstDifference: string | null): VerifyEvent => ({
    kind: 'done',
    report: {
      ok: firstDifference === null,
      entries,
      series,
      photos: { kept: photos.length, withoutEntry: photosWithoutEntry(photos, file) },
      firstDifference,
      chains: [...heads].map(([device, { entries: of, head }]) => ({ device, entries: of, head })),
    },
  })
  const damage = present.pragma('integrity_check(1)', { simple: true })
  if (damage !== 'ok') return yield report(`The file itself is damaged: ${String(damage)}.`)
  let done = 0
  const next = present.prepare<[number], LedgerRow>(
    'select * from ledger where seq > ? order by seq limit 500',
  )
  for (let rows = next.all(0); rows.length > 0; rows = next.all(rows.at(-1)!.seq)) {
    for (const row of rows) {
      const fault = entryFault(row, heads, leftOut) ?? replayFault(fresh, row)
      if (fault !== null) return yield report(fault)
    }
    done += Math.min(rows.length, entriesAtOnce)
    yield { kind: 'progress', done, of }
  }
  const checks = [
    partFaults(present, parts),
    firstSeriesFault(present),
    firstFileFault(present),
    photoFaults(photos, file),
  ]
  for (const check of checks) {
    for (const fault of check) {
      if (fault !== null) return yield report(fault)
      done += 1
      yield { kind: 'progress', done, of }
    }
  }
  const difference = firstViewDifference(present, fresh)
  yield { kind: 'progress', done: of, of }
  yield report(difference)
}

/** The newest entry of a device: its number, its hash, and how many of them are here. */
interface Head {
  entries: number
  number: number
  head: string
}

/**
 * What is wrong with a row by itself and in its device's chain; null when nothing is. A chain may go on only after the
 * entry before, or after one that a part leaves out; the part itself is checked too.
 */
function entryFault(row: LedgerRow, heads: Map<string, Head>, leftOut: ReadonlySet<string>): string | null {
  const name = `Entry ${row.seq} (${isKindName(row.kind) ? kinds[row.kind].title : row.kind}, ${row.id})`
  const last = heads.get(row.device) ?? { entries: 0, number: 0, head: chainStart }
  const isAfterGap = row.deviceSeq > last.number + 1 && leftOut.has(row.prevHash)
  if (row.deviceSeq !== last.number + 1 && !isAfterGap) {
    return `${name} has number ${row.deviceSeq} of its device where ${last.number + 1} should follow: an entry is missing or moved.`
  }
  if (!isAfterGap && row.prevHash !== last.head)
    return `${name} does not follow the entry that its device wrote before it.`
  try {
    const { seq: _, hash, ...said } = entryFromRow(row)
    if (entryHash(said) !== hash) {
      return `${name} does not have the hash of what it says: it was changed after it was written.`
    }
    if (canonicalJson(said.body) !== row.body || canonicalJson(said.answers) !== row.answers) {
      return `${name} says the same in other bytes than were hashed: it was changed after it was written.`
    }
  } catch (cause) {
    const detail = cause instanceof Error ? cause.message : String(cause)
    return `${name} cannot be read: ${detail}.`
  }
  heads.set(row.device, { entries: last.entries + 1, number: row.deviceSeq, head: row.hash })
  return null
}

function replayFault(fresh: Sqlite, row: LedgerRow): string | null {
  try {
    insertRow(fresh, row)
    projectEntry(fresh, row)
    return null
  } catch (cause) {
    const detail = cause instanceof Error ? cause.message : String(cause)
    return `Entry ${row.seq} (${row.id}) cannot be replayed: ${detail}.`
  }
}
