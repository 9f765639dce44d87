import { existsSync } from 'node:fs'
import { renameDatabase, stampOf } from '#db/disk.ts'
import {
  closeRecord,
  createRecord,
  listBackups,
  openRecord,
  RecordError,
  type RecordFile,
} from '#db/index.ts'
import type { HostInfo } from '#model/contract/index.ts'
import type { DataFolder } from '../data-folder/place.ts'

/** The record of a data folder: open, or in recovery because it could not be opened. */
export interface RecordHolder {
  state: () => HostInfo['recordState']
  /** @throws RecordError that kept the record from opening. */
  current: () => RecordFile
  /** Renames the file that cannot be opened, opens an empty record and returns the new name of the old file; empty when none was there. */
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
    // Backups without a record: it was there once, so an empty one must not quietly take its place.
    if (listBackups(folder.backups).length > 0) return { trouble: lost(folder) }
    return { record: createRecord(folder.record, options) }
  } catch (cause) {
    if (cause instanceof RecordError) return { trouble: cause }
    throw cause
  }
}

function lost(folder: DataFolder): RecordError {
  return new RecordError(
    'missing',
    `${folder.record} is not there, but its backups are in ${folder.backups}. Look for it, or copy the newest backup to that name.`,
  )
}

function moveAside(folder: DataFolder, now: number): string {
  if (!existsSync(folder.record)) return ''
  const wanted = `${folder.record}.aside-${stampOf(now)}`
  let free = wanted
  for (let next = 2; existsSync(free); next++) free = `${wanted}-${next}`
  renameDatabase(folder.record, free)
  return free
}
