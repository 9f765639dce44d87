import BetterSqlite from 'better-sqlite3'
import { backUpClosed, restoreBackup } from './backup.ts'
import { onDisk, RecordError } from './errors.ts'
import type { Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import type { Migration } from './migrations/index.ts'
import { busyTimeoutMs, settle } from './pragmas.ts'
import { replayLedger } from './views/project-entry.ts'

/** Applies every migration the file does not have yet. The caller holds the transaction. */
export function applyMigrations(sqlite: Sqlite, list: readonly Migration[], now: number): void {
  for (const migration of list) {
    if (migration.version <= versionOf(sqlite)) continue
    if (migration.version !== versionOf(sqlite) + 1)
      throw new Error(`step ${versionOf(sqlite) + 1} is missing`)
    sqlite.exec(migration.sql)
    if (migration.replay === true) replayLedger(sqlite)
    sqlite
      .prepare('insert into migrations (version, name, sha256, appliedAt) values (?, ?, ?, ?)')
      .run(migration.version, migration.name, sha256Hex(migration.sql), now)
    sqlite.pragma(`user_version = ${migration.version}`)
  }
}

/**
 * Brings an older file up to date: a checked backup first, then all steps in one transaction with foreign keys off
 * (a table rebuilt with them on would delete its children), then references and row counts compared with before.
 * On any surprise the file is as it was: rolled back, or restored from the backup when a step broke out of the
 * transaction.
 * @throws RecordError that says what surprised and where the backup is
 */
export function migrateFile(
  file: string,
  list: readonly Migration[],
  { now, backupFolder }: { now: number; backupFolder: string },
): void {
  const backup = backUpClosed(file, backupFolder, now)
  const before = onDisk(file, () => inspect(file))
  try {
    migrateInPlace(file, list, now)
  } catch (cause) {
    const because = cause instanceof Error ? cause.message : String(cause)
    const restored = isAsBefore(file, before) ? null : restoreBackup(file, backup.file, { now })
    const kept =
      restored?.setAside == null
        ? 'The file is as it was'
        : `The file was restored from that backup; what the change left is kept in ${restored.setAside}`
    throw new RecordError(
      'corrupt',
      `${file} could not be brought to version ${list.at(-1)?.version}: ${because}. ${kept}. Backup: ${backup.file}.`,
      { cause },
    )
  }
}

function migrateInPlace(file: string, list: readonly Migration[], now: number): void {
  const sqlite = new BetterSqlite(file, { fileMustExist: true, timeout: busyTimeoutMs })
  try {
    settle(sqlite, file, 'write')
    sqlite.pragma('foreign_keys = 0')
    sqlite.exec('begin immediate')
    const before = rowCounts(sqlite)
    const first = versionOf(sqlite)
    applyMigrations(sqlite, list, now)
    requireNoSurprise(
      sqlite,
      before,
      list.filter((one) => one.version > first),
    )
    sqlite.exec('commit')
    sqlite.pragma('wal_checkpoint(truncate)')
  } finally {
    // Closing rolls back what was not committed.
    sqlite.close()
  }
}

function requireNoSurprise(sqlite: Sqlite, before: Map<string, number>, applied: readonly Migration[]): void {
  if (!sqlite.inTransaction) throw new Error('a step ended the transaction')
  const dangling = sqlite.pragma('foreign_key_check') as { table: string }[]
  if (dangling.length > 0)
    throw new Error(`${dangling.length} rows of ${dangling[0]!.table} point at nothing`)
  const after = rowCounts(sqlite)
  const mayChange = new Set(['migrations', ...applied.flatMap((one) => one.mayChangeRowsOf ?? [])])
  for (const [table, rows] of before) {
    const now = after.get(table) ?? 0
    if (now !== rows && !mayChange.has(table)) throw new Error(`${table} had ${rows} rows and has ${now}`)
  }
  const verdict = sqlite.pragma('quick_check(1)', { simple: true })
  if (verdict !== 'ok') throw new Error(String(verdict))
}

interface State {
  version: number
  schema: string
  rows: string
}

function inspect(file: string): State {
  const sqlite = new BetterSqlite(file, { readonly: true, fileMustExist: true, timeout: busyTimeoutMs })
  try {
    const schema = sqlite.prepare<[], { sql: string }>(
      'select sql from sqlite_schema where sql is not null order by name',
    )
    return {
      version: versionOf(sqlite),
      schema: schema
        .all()
        .map((row) => row.sql)
        .join('\n'),
      rows: JSON.stringify([...rowCounts(sqlite)]),
    }
  } finally {
    sqlite.close()
  }
}

function isAsBefore(file: string, before: State): boolean {
  try {
    return JSON.stringify(inspect(file)) === JSON.stringify(before)
  } catch (cause) {
    // A file that cannot even be read is not as it was: the backup takes its place.
    if (cause instanceof Error) return false
    throw cause
  }
}

function rowCounts(sqlite: Sqlite): Map<string, number> {
  const tables = sqlite
    .prepare("select name from sqlite_schema where type = 'table' and name not like 'sqlite_%' order by name")
    .pluck()
    .all() as string[]
  return new Map(
    tables.map((table) => [table, sqlite.prepare(`select count(*) from "${table}"`).pluck().get() as number]),
  )
}

function versionOf(sqlite: Sqlite): number {
  return Number(sqlite.pragma('user_version', { simple: true }))
}
