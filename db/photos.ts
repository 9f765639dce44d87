import { randomBytes } from 'node:crypto'
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import type { PhotoFormat } from '#model/record/photos.ts'
import { syncToDisk } from './disk.ts'
import { onDisk } from './errors.ts'
import { sha256Hex } from './hash.ts'

const endings: Record<PhotoFormat, string> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' }

/** The folder of all photos beside a record. A restored backup or a record moved aside finds them here too. */
export function photoFolder(recordFile: string): string {
  return path.join(path.dirname(recordFile), 'photos')
}

/** Where a photo stands: named after the hash of its bytes, so that the same photo is there once. */
export function photoFile(recordFile: string, sha256: string, format: PhotoFormat): string {
  return path.join(photoFolder(recordFile), sha256.slice(0, 2), `${sha256}.${endings[format]}`)
}

/**
 * Keeps the bytes of a photo beside the record. When this returns they are on the disk under the name of their hash; a
 * crash before leaves at most an unfinished `.part` file, and after it a photo that no entry names yet.
 * @returns the hash, and whether the photo was new
 * @throws RecordError full, read-only; nothing is left then
 */
export function keepPhoto(
  recordFile: string,
  bytes: Uint8Array,
  format: PhotoFormat,
): { sha256: string; isNew: boolean } {
  const sha256 = sha256Hex(bytes)
  const file = photoFile(recordFile, sha256, format)
  return onDisk(recordFile, () => {
    // A copy that was damaged since is replaced by the good bytes.
    if (existsSync(file) && sha256Hex(readFileSync(file)) === sha256) return { sha256, isNew: false }
    const folder = path.dirname(file)
    mkdirSync(folder, { recursive: true })
    const building = `${file}.${randomBytes(4).toString('hex')}.part`
    try {
      writeSynced(building, bytes)
      renameSync(building, file)
    } finally {
      rmSync(building, { force: true })
    }
    for (const named of [folder, photoFolder(recordFile), path.dirname(recordFile)]) syncToDisk(named)
    return { sha256, isNew: true }
  })
}

function writeSynced(file: string, bytes: Uint8Array): void {
  const handle = openSync(file, 'wx', 0o600)
  try {
    writeFileSync(handle, bytes)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}

/** The size of a kept photo [bytes]; null when it is not there. */
export function photoSize(recordFile: string, sha256: string, format: PhotoFormat): number | null {
  return statSync(photoFile(recordFile, sha256, format), { throwIfNoEntry: false })?.size ?? null
}
