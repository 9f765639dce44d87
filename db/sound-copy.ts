import { rmSync } from 'node:fs'
import BetterSqlite from 'better-sqlite3'
import { forgetHomes } from './device.ts'
import { removeUnfinished, syncToDisk } from './disk.ts'
import { onDisk, RecordError } from './errors.ts'
import type { Sqlite } from './handles.ts'
import { busyTimeoutMs, settle } from './pragmas.ts'

/**
 * Writes a complete copy of a record in one consistent moment, whatever stands in its log, and checks it.
 * @throws RecordError; the unfinished copy is removed
 */
export function copySoundly(file: string, copy: string): void {
  onDisk(copy, () => {
    const source = new BetterSqlite(file, { readonly: true, fileMustExist: true, timeout: busyTimeoutMs })
    try {
      rmSync(copy, { force: true })
      settle(source, file, 'read')
      // query_only would refuse to write the copy too.
      source.pragma('query_only = 0')
      source.prepare('vacuum into ?').run(copy)
      finishCopy(copy)
      requireSoundCopy(source, copy)
    } catch (cause) {
      removeUnfinished(copy)
      throw cause
    } finally {
      source.close()
    }
  })
}

/** Makes a fresh copy one single file that knows no home, and puts it on the disk for good. */
export function finishCopy(copy: string): void {
  const sqlite = new BetterSqlite(copy, { fileMustExist: true, timeout: busyTimeoutMs })
  try {
    sqlite.pragma('journal_mode = delete')
    sqlite.pragma('synchronous = full')
    forgetHomes(sqlite)
  } finally {
    sqlite.close()
  }
  syncToDisk(copy)
}

/**
 * Reopens a copy and compares it with what it was made from: SQLite's own check, its references, the number of
 * entries up to the copy's last one, that entry's hash, and the readings each series says it has.
 * @throws RecordError when the copy cannot be relied on
 */
export function requireSoundCopy(source: Sqlite, copy: string): void {
  const sqlite = new BetterSqlite(copy, { readonly: true, fileMustExist: true, timeout: busyTimeoutMs })
  try {
    const faults = [...ownFaults(sqlite), ...differences(source, sqlite)]
    if (faults.length === 0) return
    throw new RecordError(
      'corrupt',
      `The copy ${copy} is not sound: ${faults[0]}. The record itself was not touched.`,
    )
  } finally {
    sqlite.close()
  }
}

function ownFaults(sqlite: Sqlite): string[] {
  const verdict = sqlite.pragma('quick_check(1)', { simple: true })
  if (verdict !== 'ok') return [String(verdict)]
  const dangling = sqlite.pragma('foreign_key_check') as unknown[]
  if (dangling.length > 0) return [`${dangling.length} rows point at nothing`]
  const short = sqlite
    .prepare<[], { series: number; readings: number; found: number }>(
      `select s.series, s.readings, (select count(*) from readings r where r.series = s.series) as found
       from series s where s.readings <> found limit 1`,
    )
    .get()
  return short === undefined
    ? []
    : [`series ${short.series} has ${short.found} of ${short.readings} readings`]
}

interface Head {
  seq: number
  hash: string
  entries: number
}

function differences(source: Sqlite, copy: Sqlite): string[] {
  const headSql = `select seq, hash, (select count(*) from ledger where seq <= l.seq) as entries from ledger l`
  const found = copy.prepare<[], Head>(`${headSql} order by seq desc limit 1`).get()
  const versions = [source, copy].map((one) => one.pragma('user_version', { simple: true }))
  if (versions[0] !== versions[1]) return [`it has version ${versions[1]} instead of ${versions[0]}`]
  if (found === undefined) {
    const any = source.prepare('select 1 from ledger').get()
    return any === undefined ? [] : ['it holds no entries']
  }
  const meant = source.prepare<[number], Head>(`${headSql} where seq = ?`).get(found.seq)
  if (meant?.hash !== found.hash) return [`its last entry (${found.seq}) is another one`]
  return meant.entries === found.entries ? [] : [`it holds ${found.entries} of ${meant.entries} entries`]
}
