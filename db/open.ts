import { randomBytes } from 'node:crypto'
import { existsSync, mkdirSync, renameSync } from 'node:fs'
import path from 'node:path'
import BetterSqlite from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { type Device, deviceHere } from './device.ts'
import { removeUnfinished, syncToDisk } from './disk.ts'
import { onDisk, RecordError } from './errors.ts'
import type { Handle, ReadHandle, Sqlite, WriteHandle } from './handles.ts'
import { lookAt, mayWrite, openToRead } from './look.ts'
import { applyMigrations, migrateFile } from './migrate.ts'
import { type Migration, migrations } from './migrations/index.ts'
import { applicationId, busyTimeoutMs, settle } from './pragmas.ts'
import * as schema from './schema.ts'

/** An open record: one connection that reads and, unless it is read-only, one that writes. */
export interface RecordFile {
  readonly file: string
  readonly read: ReadHandle
  readonly write: WriteHandle | null
  /** Who writes here; null when nothing may be written. */
  readonly device: Device | null
  /** Why nothing may be written, as a sentence; null when it may. */
  readonly readOnlyBecause: RecordError | null
}

export interface OpenOptions {
  /** [epoch ms] */
  now: number
  readOnly?: boolean
  /** What people call this machine; its host name when left out. */
  deviceName?: string
  /** Leaves out the full look at the file: for a worker of a program that has just opened it. */
  skipLook?: boolean
  /** Where the backup before a change of shape goes; `backups` beside the file when left out. */
  backupFolder?: string
  /** Only tests give another list. */
  migrationList?: readonly Migration[]
}

/**
 * Opens a record: the only way to do so. The file is looked at first without changing it; an older one is backed up
 * and brought up to date; a newer one is opened read-only and `readOnlyBecause` names the version needed.
 * @throws RecordError busy, read-only, full, corrupt, missing, foreign
 */
export function openRecord(file: string, options: OpenOptions): RecordFile {
  const list = options.migrationList ?? migrations
  const { version, latest } = lookAt(file, list, options.skipLook !== true)
  if (version > latest) return openReading(file, newerVersion(file, version, latest))
  if (options.readOnly === true) {
    if (version < latest) throw new RecordError('read-only', tooOld(file, version, latest))
    return openReading(file, new RecordError('read-only', `${file} was opened for reading only.`))
  }
  if (!mayWrite(file)) {
    throw new RecordError('read-only', `${file} or its folder is read-only. Open it for reading, or move it.`)
  }
  if (version < latest) {
    migrateFile(file, list, {
      now: options.now,
      backupFolder: options.backupFolder ?? path.join(path.dirname(file), 'backups'),
    })
  }
  return openWriting(file, options)
}

/**
 * Makes an empty record and opens it. The file appears under its name only when it is complete.
 * @throws RecordError foreign when something is there already; read-only, full
 */
export function createRecord(file: string, options: Omit<OpenOptions, 'readOnly' | 'skipLook'>): RecordFile {
  if (existsSync(file)) {
    throw new RecordError('foreign', `${file} is there already. Open it, or choose another name.`)
  }
  const building = `${file}.${randomBytes(4).toString('hex')}.new`
  onDisk(file, () => {
    mkdirSync(path.dirname(file), { recursive: true })
    try {
      buildEmpty(building, options.migrationList ?? migrations, options.now)
      syncToDisk(building)
      renameSync(building, file)
      syncToDisk(path.dirname(file))
    } finally {
      removeUnfinished(building)
    }
  })
  return openWriting(file, options)
}

/** Closes both connections; the log is folded into the file. */
export function closeRecord(record: RecordFile): void {
  record.read.sqlite.close()
  record.write?.sqlite.close()
}

/** The writing connection, or the reason why there is none. */
export function writing(record: RecordFile): { write: WriteHandle; device: Device } {
  if (record.write !== null && record.device !== null) return { write: record.write, device: record.device }
  throw record.readOnlyBecause ?? new RecordError('read-only', `${record.file} cannot be written.`)
}

function openWriting(file: string, { now, deviceName }: OpenOptions): RecordFile {
  return onDisk(file, () => {
    const sqlite = new BetterSqlite(file, { fileMustExist: true, timeout: busyTimeoutMs })
    try {
      settle(sqlite, file, 'write')
      const device = deviceHere(sqlite, file, now, deviceName)
      const write = handleOf(sqlite, file) as WriteHandle
      return { file, read: readHandle(file), write, device, readOnlyBecause: null }
    } catch (cause) {
      sqlite.close()
      throw cause
    }
  })
}

function openReading(file: string, because: RecordError): RecordFile {
  return onDisk(file, () => ({
    file,
    read: readHandle(file),
    write: null,
    device: null,
    readOnlyBecause: because,
  }))
}

function readHandle(file: string): ReadHandle {
  const sqlite = openToRead(file)
  settle(sqlite, file, sqlite.memory ? 'read in memory' : 'read')
  return handleOf(sqlite, file) as ReadHandle
}

function handleOf(sqlite: Sqlite, file: string): Handle {
  return { sqlite, file, orm: drizzle(sqlite, { schema }) }
}

function buildEmpty(file: string, list: readonly Migration[], now: number): void {
  const sqlite = new BetterSqlite(file)
  try {
    sqlite.pragma(`application_id = ${applicationId}`)
    sqlite.transaction(() => applyMigrations(sqlite, list, now))()
    settle(sqlite, file, 'write')
  } finally {
    sqlite.close()
  }
}

function newerVersion(file: string, version: number, latest: number): RecordError {
  const words = `${file} was written by a newer Bayledger (record version ${version}; this one writes ${latest}).`
  return new RecordError(
    'newer version',
    `${words} It is shown for reading; update Bayledger to write in it.`,
  )
}

function tooOld(file: string, version: number, latest: number): string {
  return `${file} has record version ${version} and needs ${latest}. Open it once for writing to bring it up to date.`
}
