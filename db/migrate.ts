import { mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { onDisk, RecordError } from './errors.ts'
import type { Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import type { Migration } from './migrations/index.ts'
import { busyTimeoutMs, settle } from './pragmas.ts'

export {
  BetterSqlite,
  busyTimeoutMs,
  mkdirSync,
  onDisk,
  path,
  RecordError,
  readFileSync,
  renameSync,
  rmSync,
  settle,
  statSync,
  writeFileSync,
}

/** Applies every migration the file does not have yet, each in its own transaction. */
export function applyMigrations(sqlite: Sqlite, list: readonly Migration[], now: number): void {
  for (const migration of list) {
    if (migration.version <= Number(sqlite.pragma('user_version', { simple: true }))) continue
    sqlite.transaction(() => {
      sqlite.exec(migration.sql)
      sqlite
        .prepare('insert into migrations (version, name, sha256, appliedAt) values (?, ?, ?, ?)')
        .run(migration.version, migration.name, sha256Hex(migration.sql), now)
      sqlite.pragma(`user_version = ${migration.version}`)
    })()
  }
}

export function migrateFile(
  file: string,
  list: readonly Migration[],
  _o: { now: number; backupFolder: string },
): void {
  throw new RecordError('read-only', `${file} needs ${list.length}`)
}
