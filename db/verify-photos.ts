import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import path from 'node:path'
import type { PhotoFormat } from '#model/record/photos.ts'
import type { Sqlite } from './handles.ts'
import { sha256Hex } from './hash.ts'
import { photoFile, photoFolder } from './photos.ts'

interface NamedPhoto {
  sha256: string
  format: PhotoFormat
  entry: string
}

/** Every photo that an entry names, once. */
export function namedPhotos(sqlite: Sqlite): NamedPhoto[] {
  return sqlite
    .prepare<[], NamedPhoto>(
      `select json_extract(body, '$.sha256') as sha256, json_extract(body, '$.format') as format, min(id) as entry
       from ledger where kind = 'photo-added' group by 1, 2 order by 1`,
    )
    .all()
}

/** For each photo that an entry names, what is wrong with its file; null when nothing is. */
export function* photoFaults(named: readonly NamedPhoto[], recordFile: string): Generator<string | null> {
  for (const { sha256, format, entry } of named) {
    const file = photoFile(recordFile, sha256, format)
    if (!existsSync(file)) yield `The photo ${file} that entry ${entry} names is missing.`
    else if (sha256Hex(readFileSync(file)) !== sha256)
      yield `The photo ${file} of entry ${entry} was changed after it was kept.`
    else yield null
  }
}

/**
 * How many photos stand beside a record without an entry that names them: harmless, left by a crash between file and
 * entry or by a record that was moved aside.
 */
export function photosWithoutEntry(named: readonly NamedPhoto[], recordFile: string): number {
  const folder = photoFolder(recordFile)
  if (!existsSync(folder)) return 0
  const known = new Set(named.map(({ sha256, format }) => photoFile(recordFile, sha256, format)))
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => path.join(folder, name))
    .filter((file) => statSync(file).isFile() && !known.has(file)).length
}
