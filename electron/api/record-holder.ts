import { existsSync, readdirSync, renameSync } from 'node:fs'
import { closeRecord, createRecord, openRecord, RecordError, type RecordFile } from '#db/index.ts'
import type { HostInfo } from '#model/contract/index.ts'
import type { DataFolder } from '../data-folder/place.ts'

/** The record of a data folder: open, or in recovery because it could not be opened. */
export interface RecordHolder {
  state: () => HostInfo['recordState']
  /** @throws RecordError that kept the record from opening. */
  current: () => RecordFile
  /** Renames the file that cannot be opened, opens an empty record and returns the new name of the old file. */
  moveAside: (now: number) => string
  close: () => void
}

type Held = { record: RecordFile } | { trouble: RecordError }

/** Opens the record of a folder. A record that cannot be used is not an error here: the program starts in recovery. */
export function holdRecord(folder: DataFolder, now: number): RecordHolder {
  let held = open(folder, now)
  return {
    state: () => {
      if ('trouble' in held) {
        return { state: 'recovery', reason: held.trouble.message, code: held.trouble.state }
      }
      const because = held.record.readOnlyBecause
      return because === null ? { state: 'open' } : { state: 'open', readOnlyBecause: because.message }
    },
    current: () => {
      if ('trouble' in held) throw held.trouble
      return held.record
    },
    moveAside: (at) => {
      const movedTo = moveAside(folder, at)
      held = { record: createRecord(folder.record, { now: at, backupFolder: folder.backups }) }
      return movedTo
    },
    close: () => {
      if ('record' in held) closeRecord(held.record)
    },
  }
}

function open(folder: DataFolder, now: number): Held {
  const options = { now, backupFolder: folder.backups }
  try {
    if (existsSync(folder.record)) return { record: openRecord(folder.record, options) }
    if (hasBackups(folder)) return { trouble: lost(folder) }
    return { record: createRecord(folder.record, options) }
  } catch (cause) {
    if (cause instanceof RecordError) return { trouble: cause }
    throw cause
  }
}

/** Backups without a record: it was there once, so an empty one must not quietly take its place. */
function hasBackups(folder: DataFolder): boolean {
  return existsSync(folder.backups) && readdirSync(folder.backups).length > 0
}

function lost(folder: DataFolder): RecordError {
  return new RecordError(
    'missing',
    `${folder.record} is not there, but its backups are in ${folder.backups}. Look for it, or copy the newest backup to that name.`,
  )
}

/** The log files of SQLite belong to the file and go with it: without them its last entries would be lost. */
function moveAside(folder: DataFolder, now: number): string {
  const stamp = new Date(now).toISOString().replace(/[-:]/g, '').slice(0, 15)
  let target = `${folder.record}.aside-${stamp}`
  for (let next = 2; existsSync(target); next++) target = `${folder.record}.aside-${stamp}-${next}`
  for (const end of ['-wal', '-shm', '-journal', '']) {
    if (existsSync(folder.record + end)) renameSync(folder.record + end, target + end)
  }
  return target
}
