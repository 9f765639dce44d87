import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import type { BackupInfo, FrozenSaved, PhotosSaved } from '#model/contract/shapes.ts'
import { dayMs } from '#model/time.ts'
import { saveFrozen } from './backup-frozen.ts'
import { savePhotos } from './backup-photos.ts'
import { removeUnfinished, renameDatabase, stampOf, syncToDisk } from './disk.ts'
import { onDisk, RecordError, storageError } from './errors.ts'
import { lookAt } from './look.ts'
import type { RecordFile } from './open.ts'
import { copySoundly, finishCopy, requireSoundCopy } from './sound-copy.ts'

/** How many backups stay: of today, one a day for so many days, and one of each version of the record. */
export const rotation = { ofToday: 3, days: 10 } as const

const pagesAtOnce = 2000
const namePattern = /^bayledger-(\d{8}T\d{9}Z)-v(\d+)\.backup$/

/**
 * Backs the record up while it is in use. The copy is reopened and compared before it gets its name, so that a file
 * with the name of a backup is one; then the photos and the frozen files that it names are saved beside it, and the oldest ones make room.
 * @param now [epoch ms]
 * @throws RecordError when disk or copy are not sound; earlier backups stay
 */
export async function backUp(record: RecordFile, folder: string, now: number): Promise<BackupInfo> {
  const source = (record.write ?? record.read).sqlite
  const version = Number(source.pragma('user_version', { simple: true }))
  const file = freeName(folder, now, version)
  const building = `${file}.part`
  try {
    mkdirSync(folder, { recursive: true })
    removeUnfinished(building)
    await source.backup(building, { progress: () => pagesAtOnce })
    finishCopy(building)
    requireSoundCopy(source, building)
    renameSync(building, file)
    syncToDisk(folder)
  } catch (cause) {
    removeUnfinished(building)
    throw storageError(file, cause)
  }
  try {
    note(photosNote(file), await savePhotos(record.read, folder))
    note(frozenNote(file), await saveFrozen(record.read, folder))
  } catch (cause) {
    throw storageError(file, cause)
  }
  makeRoom(folder, now)
  return infoOf(file)
}

/** What was saved beside the record stands in small files with the backup, so that a list of backups can tell it. */
function note(at: string, saved: object | null): void {
  if (saved === null) return
  const building = `${at}.part`
  writeFileSync(building, JSON.stringify(saved))
  renameSync(building, at)
  syncToDisk(path.dirname(at))
}

/** Null also for a note that somebody damaged: what is not known is not told as saved. */
function noted<Counts extends object>(at: string, names: readonly (keyof Counts & string)[]): Counts | null {
  if (!existsSync(at)) return null
  try {
    const found = JSON.parse(readFileSync(at, 'utf8')) as Counts
    return names.every((name) => Number.isSafeInteger(found[name]))
      ? (Object.fromEntries(names.map((name) => [name, found[name]])) as Counts)
      : null
  } catch (cause) {
    if (cause instanceof SyntaxError || cause instanceof TypeError) return null
    throw cause
  }
}

const photosNote = (backup: string) => backup.replace(/\.backup$/, '.photos.json')
const frozenNote = (backup: string) => backup.replace(/\.backup$/, '.frozen.json')

/** The same for a record that is not open, in one step: before its shape is changed. */
export function backUpClosed(file: string, folder: string, now: number): BackupInfo {
  return onDisk(file, () => {
    mkdirSync(folder, { recursive: true })
    const backup = freeName(folder, now, lookAt(file, undefined, false).version)
    copySoundly(file, `${backup}.part`)
    renameSync(`${backup}.part`, backup)
    syncToDisk(folder)
    return infoOf(backup)
  })
}

/** The verified backups of a folder, newest first. A file that is still being written is not among them. */
export function listBackups(folder: string): BackupInfo[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => namePattern.test(name))
    .map((name) => infoOf(path.join(folder, name)))
    .sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : b.file.localeCompare(a.file)))
}

/**
 * Puts a backup in the place of the record. The record that stood there is renamed, never deleted; `undoRestore`
 * brings it back. The record must be closed.
 * @returns where the former record stands now; null when there was none
 * @throws RecordError when the backup is not sound; then nothing has changed
 */
export function restoreBackup(
  file: string,
  backup: string,
  { now }: { now: number },
): { setAside: string | null } {
  lookAt(backup)
  const building = `${file}.${stampOf(now)}.part`
  copySoundly(backup, building)
  const setAside = existsSync(file) ? freePath(`${file}.before-restore-${stampOf(now)}`) : null
  onDisk(file, () => {
    if (setAside !== null) renameDatabase(file, setAside)
    try {
      renameSync(building, file)
    } catch (cause) {
      if (setAside !== null) renameDatabase(setAside, file)
      throw cause
    }
    syncToDisk(path.dirname(file))
  })
  return { setAside }
}

/** Undoes a restore: what was set aside is the record again, byte for byte, and the restored one is set aside. */
export function undoRestore(file: string, setAside: string, { now }: { now: number }): { setAside: string } {
  if (!existsSync(setAside))
    throw new RecordError('missing', `${setAside} is not there; nothing was changed.`)
  const restored = freePath(`${file}.restored-${stampOf(now)}`)
  onDisk(file, () => {
    renameDatabase(file, restored)
    renameDatabase(setAside, file)
    syncToDisk(path.dirname(file))
  })
  return { setAside: restored }
}

/** The backups that stay when it is `now`: a pure choice, so that it can be tested over years. */
export function backupsToKeep(
  backups: readonly { file: string; at: string; version: number }[],
  now: number,
): Set<string> {
  const newestFirst = [...backups].sort((a, b) => (a.at < b.at ? 1 : -1))
  const today = dayOf(now)
  const keep = new Set(
    newestFirst
      .filter((one) => one.at.startsWith(today))
      .slice(0, rotation.ofToday)
      .map(fileOf),
  )
  const keepNewest = (of: { file: string }[]) => of[0] !== undefined && keep.add(of[0].file)
  for (let back = 0; back < rotation.days; back++) {
    keepNewest(newestFirst.filter((one) => one.at.startsWith(dayOf(now - back * dayMs))))
  }
  for (const version of new Set(newestFirst.map((one) => one.version))) {
    keepNewest(newestFirst.filter((one) => one.version === version))
  }
  return keep
}

function makeRoom(folder: string, now: number): void {
  const all = listBackups(folder).map((one) => ({
    ...one,
    version: Number(namePattern.exec(path.basename(one.file))![2]),
  }))
  const keep = backupsToKeep(all, now)
  for (const { file, at } of all) {
    if (keep.has(file) || at > new Date(now).toISOString()) continue
    rmSync(file)
    for (const at of [photosNote(file), frozenNote(file)]) rmSync(at, { force: true })
  }
}

function infoOf(file: string): BackupInfo {
  const stamp = namePattern.exec(path.basename(file))![1]!
  const [, date, time] = /^(\d{8})T(\d{9})Z$/.exec(stamp)!
  const day = date!.replace(/(....)(..)(..)/, '$1-$2-$3')
  const clock = time!.replace(/(..)(..)(..)(...)/, '$1:$2:$3.$4')
  const photos = noted<PhotosSaved>(photosNote(file), ['named', 'saved', 'bytes', 'copied'])
  const frozen = noted<FrozenSaved>(frozenNote(file), ['named', 'saved'])
  return { file, at: `${day}T${clock}Z`, bytes: statSync(file).size, verified: true, photos, frozen }
}

/** A second backup within one millisecond gets the next one. */
function freeName(folder: string, now: number, version: number): string {
  for (let at = now; ; at++) {
    const file = path.join(folder, `bayledger-${stampOf(at)}-v${version}.backup`)
    if (!existsSync(file)) return file
  }
}

function freePath(wanted: string): string {
  let free = wanted
  for (let next = 2; existsSync(free); next++) free = `${wanted}-${next}`
  return free
}

function fileOf({ file }: { file: string }): string {
  return file
}

function dayOf(at: number): string {
  return new Date(at).toISOString().slice(0, 10)
}
