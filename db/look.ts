import { accessSync, closeSync, constants, existsSync, openSync, readSync, rmSync, statSync } from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { RecordError, storageError } from './errors.ts'
import { sha256Hex } from './hash.ts'
import { type Migration, migrations } from './migrations/index.ts'
import { applicationId, busyTimeoutMs, settle } from './pragmas.ts'

export interface Look {
  version: number
  latest: number
}

const magic = Buffer.from('SQLite format 3\0', 'latin1')

/**
 * Looks at a file without changing a byte of it, and says whether it is a sound record of this program.
 * @throws RecordError missing, foreign, corrupt, busy, read-only
 */
export function lookAt(file: string, list: readonly Migration[] = migrations, deep = true): Look {
  const look = { version: lookAtHeader(file), latest: list.at(-1)?.version ?? 0 }
  if (deep) lookInside(file, look.version, list)
  return look
}

/** Whether this user may write the file and beside it. */
export function mayWrite(file: string): boolean {
  try {
    accessSync(file, constants.R_OK | constants.W_OK)
    accessSync(path.dirname(file), constants.W_OK)
    return true
  } catch (cause) {
    if (storageError(file, cause) instanceof RecordError) return false
    throw cause
  }
}

/** The file's version from its first 100 bytes (SQLite file format, 1.3: offsets 0, 60 and 68). */
function lookAtHeader(file: string): number {
  const header = Buffer.alloc(100)
  let length = 0
  try {
    if (statSync(file).isDirectory()) throw new RecordError('foreign', `${file} is a folder, not a record.`)
    const handle = openSync(file, 'r')
    try {
      length = readSync(handle, header, 0, 100, 0)
    } finally {
      closeSync(handle)
    }
  } catch (cause) {
    throw storageError(file, cause)
  }
  const ours = length === 100 && header.readUInt32BE(68) === applicationId
  if (length < 100 || !header.subarray(0, 16).equals(magic)) {
    if (ours) throw damaged(file, 'its first bytes are overwritten')
    throw new RecordError('foreign', `${file} is not a record of this program. It was left as it is.`)
  }
  if (!ours) {
    throw new RecordError('foreign', `${file} belongs to another program. It was left as it is.`)
  }
  return header.readUInt32BE(60)
}

function lookInside(file: string, version: number, list: readonly Migration[]): void {
  const sideFiles = ['-wal', '-shm'].map((end) => file + end)
  const present = sideFiles.filter((side) => existsSync(side))
  try {
    const sqlite = openToRead(file)
    try {
      settle(sqlite, file, sqlite.memory ? 'read in memory' : 'read')
      const verdict = sqlite.pragma('quick_check(1)', { simple: true })
      if (verdict !== 'ok') throw damaged(file, String(verdict))
      checkMigrations(file, version, list, () =>
        sqlite
          .prepare<[], { version: number; sha256: string }>('select version, sha256 from migrations')
          .all(),
      )
    } finally {
      sqlite.close()
    }
  } catch (cause) {
    if (cause instanceof BetterSqlite.SqliteError && cause.code === 'SQLITE_ERROR') {
      throw new RecordError('corrupt', `${file} is damaged: ${cause.message}. Restore the newest backup.`, {
        cause,
      })
    }
    throw storageError(file, cause)
  } finally {
    // A reading connection may leave an empty log beside the file; nothing of the record stands in it.
    const made = sideFiles.filter((side) => existsSync(side) && !present.includes(side))
    const empty = made.every((side) => side.endsWith('-shm') || statSync(side).size === 0)
    if (present.length === 0 && empty) for (const side of made) rmSync(side, { force: true })
  }
}

function checkMigrations(
  file: string,
  version: number,
  list: readonly Migration[],
  read: () => { version: number; sha256: string }[],
): void {
  const applied = read()
  for (const migration of list.filter((one) => one.version <= version)) {
    const found = applied.find((one) => one.version === migration.version)
    if (found?.sha256 === sha256Hex(migration.sql)) continue
    const what = found === undefined ? 'lacks' : 'was made by another edition of'
    throw new RecordError(
      'foreign',
      `${file} ${what} step ${migration.version} (${migration.name}) of this program.`,
    )
  }
}

function damaged(file: string, detail: string): RecordError {
  return new RecordError(
    'corrupt',
    `${file} is damaged: ${detail}. It was left as it is; restore the newest backup.`,
  )
}

/**
 * A reading connection. Where nothing may be written beside the file, SQLite cannot keep its lock table there, so
 * the bytes are read into memory instead; that needs a file whose log was folded in (a closed one).
 */
export function openToRead(file: string): BetterSqlite.Database {
  if (mayWriteBeside(file)) {
    return new BetterSqlite(file, { readonly: true, fileMustExist: true, timeout: busyTimeoutMs })
  }
  const log = `${file}-wal`
  if (existsSync(log) && statSync(log).size > 0) {
    const way = 'Copy the folder to a disk that can be written and open it there'
    throw new RecordError('read-only', `${file} was not closed properly and its folder is read-only. ${way}.`)
  }
  return new BetterSqlite(bytesOf(file))
}

function mayWriteBeside(file: string): boolean {
  try {
    accessSync(path.dirname(file), constants.W_OK)
    return true
  } catch (cause) {
    if (storageError(file, cause) instanceof RecordError) return false
    throw cause
  }
}

function bytesOf(file: string): Buffer {
  const size = statSync(file).size
  const bytes = Buffer.alloc(size)
  const handle = openSync(file, 'r')
  try {
    for (let done = 0; done < size; ) {
      const got = readSync(handle, bytes, done, Math.min(1 << 26, size - done), done)
      if (got === 0) break
      done += got
    }
  } finally {
    closeSync(handle)
  }
  // Offsets 18 and 19 say "write-ahead log"; a database in memory has none.
  bytes[18] = 1
  bytes[19] = 1
  return bytes
}
