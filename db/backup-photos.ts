import { existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { open, readFile } from 'node:fs/promises'
import path from 'node:path'
import type { PhotosSaved } from '#model/contract/shapes.ts'
import type { PhotoFormat } from '#model/record/photos.ts'
import { syncToDisk } from './disk.ts'
import { onDisk } from './errors.ts'
import type { ReadHandle } from './handles.ts'
import { sha256Hex } from './hash.ts'
import { keepPhoto, photoFile } from './photos.ts'
import { namedPhotos } from './verify-photos.ts'

/**
 * Saves every photo that the record names beside its backups, once under its hash, for all backups together. Each copy is
 * read again and compared with its hash; one that is there and good is not written again, one that was damaged is replaced.
 * Copies are never removed.
 * @returns what stands in the backup folder now; null for a record that names no photo
 * @throws RecordError full, read-only; what was copied until then stays and is not copied again
 */
export async function savePhotos({ sqlite, file }: ReadHandle, folder: string): Promise<PhotosSaved | null> {
  const named = namedPhotos(sqlite)
  if (named.length === 0) return null
  const done: PhotosSaved = { named: named.length, saved: 0, bytes: 0, copied: 0 }
  for (const { sha256, format } of named) {
    const copy = copyOf(folder, sha256, format)
    let bytes = await goodBytes(copy, sha256)
    if (bytes === null) {
      bytes = await goodBytes(photoFile(file, sha256, format), sha256)
      if (bytes === null) continue
      await writeCopy(copy, bytes)
      if ((await goodBytes(copy, sha256)) === null) continue
      done.copied += 1
    }
    done.saved += 1
    done.bytes += bytes.length
  }
  return done
}

/**
 * Puts photos that the record names and that are not beside it back from the copies beside its backups: after a restore on
 * another disk, or when a file was lost. Only a copy with the right hash is put back; what stands there is left alone.
 * @returns how many came back, and how many are still missing
 */
export async function bringPhotosBack(
  { sqlite, file }: ReadHandle,
  folder: string,
): Promise<{ back: number; missing: number }> {
  const count = { back: 0, missing: 0 }
  for (const { sha256, format } of namedPhotos(sqlite)) {
    if (existsSync(photoFile(file, sha256, format))) continue
    const bytes = await goodBytes(copyOf(folder, sha256, format), sha256)
    if (bytes === null) {
      count.missing += 1
      continue
    }
    keepPhoto(file, bytes, format)
    count.back += 1
  }
  return count
}

/** Copies lie as the photos themselves do, so that the folder can also be put in their place by hand. */
function copyOf(folder: string, sha256: string, format: PhotoFormat): string {
  return photoFile(path.join(folder, 'record'), sha256, format)
}

/** The bytes of a file when they have this hash; null when they do not, or when there is no such file. */
async function goodBytes(file: string, sha256: string): Promise<Buffer | null> {
  if (statSync(file, { throwIfNoEntry: false })?.isFile() !== true) return null
  const bytes = await readFile(file)
  return sha256Hex(bytes) === sha256 ? bytes : null
}

async function writeCopy(copy: string, bytes: Buffer): Promise<void> {
  const building = `${copy}.part`
  onDisk(copy, () => {
    mkdirSync(path.dirname(copy), { recursive: true })
    rmSync(building, { force: true })
  })
  try {
    const handle = await open(building, 'wx', 0o600)
    try {
      await handle.writeFile(bytes)
      await handle.sync()
    } finally {
      await handle.close()
    }
    onDisk(copy, () => {
      renameSync(building, copy)
      syncToDisk(path.dirname(copy))
      syncToDisk(path.dirname(path.dirname(copy)))
    })
  } finally {
    rmSync(building, { force: true })
  }
}
