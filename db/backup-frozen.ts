import { createHash } from 'node:crypto'
import { constants, createReadStream, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs'
import { copyFile } from 'node:fs/promises'
import path from 'node:path'
import type { FrozenSaved } from '#model/contract/shapes.ts'
import { frontOf } from './bundle/front.ts'
import { syncToDisk } from './disk.ts'
import { onDisk } from './errors.ts'
import type { ReadHandle } from './handles.ts'

/** A file that an entry froze: its name in the folder of bundles, and the hash by which it is known again. */
interface FrozenFile {
  name: string
  hash: string
  what: 'bundle' | 'report'
}

/**
 * Saves the files of frozen evidence beside the backups: their bytes cannot be made again, for a bundle carries the time
 * and the key of its signing, and a later program may print another report. A file that was changed is not saved, and a
 * good copy is never written over or removed.
 * @returns how many the record names, and how many of them stand saved; null for a record that names none
 * @throws RecordError full, read-only; what was copied until then stays
 */
export async function saveFrozen(read: ReadHandle, backups: string): Promise<FrozenSaved | null> {
  const files = frozenFiles(read)
  if (files.length === 0) return null
  const copied = await copyGood(files, bundlesBeside(read.file), path.join(backups, 'bundles'))
  return { named: files.length, saved: copied.good }
}

/**
 * Puts files of frozen evidence that are gone back from the copies beside the backups; what stands there is left alone.
 * @returns how many came back
 */
export async function bringFrozenBack(read: ReadHandle, backups: string): Promise<number> {
  const missing = frozenFiles(read).filter(
    ({ name }) => !existsSync(path.join(bundlesBeside(read.file), name)),
  )
  return (await copyGood(missing, path.join(backups, 'bundles'), bundlesBeside(read.file))).copied
}

function bundlesBeside(recordFile: string): string {
  return path.join(path.dirname(recordFile), 'bundles')
}

/** What the entries name; a name that leads out of its folder, as a foreign record may hold, is none. */
function frozenFiles({ sqlite }: ReadHandle): FrozenFile[] {
  const rows = sqlite
    .prepare<[], Record<'bundle' | 'bundleHash' | 'report' | 'reportHash', string | null>>(
      `select distinct json_extract(body, '$.bundle') as bundle, json_extract(body, '$.contentHash') as bundleHash,
         json_extract(body, '$.report') as report, json_extract(body, '$.reportHash') as reportHash
       from ledger where kind = 'evidence-frozen' order by seq`,
    )
    .all()
  return rows
    .flatMap(({ bundle, bundleHash, report, reportHash }) => [
      { name: bundle, hash: bundleHash, what: 'bundle' as const },
      { name: report, hash: reportHash, what: 'report' as const },
    ])
    .filter((one): one is FrozenFile => one.name !== null && one.hash !== null && isPlainName(one.name))
}

function isPlainName(name: string): boolean {
  return /^[^/\\:\0]+$/.test(name) && !name.startsWith('.')
}

async function copyGood(files: readonly FrozenFile[], from: string, to: string) {
  const count = { good: 0, copied: 0 }
  for (const file of files) {
    const [source, copy] = [path.join(from, file.name), path.join(to, file.name)]
    if (!(await isGood(copy, file))) {
      if (!(await isGood(source, file))) continue
      await copyWhole(source, copy)
      if (!(await isGood(copy, file))) continue
      count.copied += 1
    }
    count.good += 1
  }
  return count
}

/**
 * A report is known by its SHA-256. Of a bundle its head is read, whose hash is its fingerprint; whether all its bytes belong
 * to that head is found by checking it, as anybody does who takes it in.
 */
async function isGood(file: string, { hash, what }: FrozenFile): Promise<boolean> {
  if (!existsSync(file)) return false
  if (what === 'bundle') return frontOf(file)?.fingerprint === hash
  const sha = createHash('sha256')
  for await (const part of createReadStream(file)) sha.update(part as Buffer)
  return sha.digest('hex') === hash
}

/** The copy gets its name only when it is complete and on the disk. */
async function copyWhole(source: string, copy: string): Promise<void> {
  const building = `${copy}.part`
  onDisk(copy, () => {
    mkdirSync(path.dirname(copy), { recursive: true })
    rmSync(building, { force: true })
  })
  try {
    await copyFile(source, building, constants.COPYFILE_EXCL)
    onDisk(copy, () => {
      syncToDisk(building)
      renameSync(building, copy)
      syncToDisk(path.dirname(copy))
    })
  } finally {
    rmSync(building, { force: true })
  }
}
