import { createHash, randomBytes } from 'node:crypto'
import { mkdir, open, readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { bundleFileEnding } from '#model/contract/bundles.ts'
import { InputError } from '#model/errors.ts'

/** A file handed in, waiting to be read. Its path is ours; the name is what the person's file was called. */
export interface Upload {
  id: string
  path: string
  fileName: string
  bytes: number
  sha256: string
}

export interface Uploads {
  mostBytes: number
  /**
   * Streams a file to the staging folder and returns what stands there.
   * @throws InputError when it is larger than `mostBytes`; whatever the stream or the disk throws. Nothing is left
   * behind then.
   */
  receive: (bytes: AsyncIterable<Uint8Array>, fileName: string, signal?: AbortSignal) => Promise<Upload>
  /** Returns an upload of this session; throws InputError when there is none of that id. */
  find: (id: string) => Upload
  remove: (id: string) => Promise<void>
  /** Removes all uploads. */
  close: () => Promise<void>
}

interface UploadOptions {
  folder: string
  mostBytes?: number
  /** The oldest upload makes room when there would be more. */
  mostFiles?: number
}

const stagedName = /^[0-9a-f]{32}\.upload$/

/**
 * Opens the staging folder for files on their way in. What an earlier run left there is removed: an upload lives
 * only as long as the session, and a committed one is kept in the record.
 */
export async function openUploads(options: UploadOptions): Promise<Uploads> {
  const { folder, mostBytes = 300 * 1024 * 1024, mostFiles = 20 } = options
  await mkdir(folder, { recursive: true, mode: 0o700 })
  for (const name of await readdir(folder)) if (stagedName.test(name)) await rm(join(folder, name))
  const staged = new Map<string, Upload>()

  const remove = async (id: string) => {
    const upload = staged.get(id)
    staged.delete(id)
    if (upload !== undefined) await rm(upload.path, { force: true })
  }

  return {
    mostBytes,
    receive: async (bytes, fileName, signal) => {
      const id = randomBytes(16).toString('hex')
      const path = join(folder, `${id}.upload`)
      try {
        const upload = {
          id,
          path,
          fileName: shownFileName(fileName),
          ...(await store(path, bytes, mostFor(fileName, mostBytes), signal)),
        }
        staged.set(id, upload)
        const oldest = staged.keys().next().value
        if (staged.size > mostFiles && oldest !== undefined) await remove(oldest)
        return upload
      } catch (cause) {
        await rm(path, { force: true })
        throw cause
      }
    },
    find: (id) => {
      const upload = staged.get(id)
      if (upload !== undefined) return upload
      throw new InputError('upload', 'This file is no longer waiting; choose it again.')
    },
    remove,
    close: async () => {
      for (const id of [...staged.keys()]) await remove(id)
    },
  }
}

/** A bundle carries the photos of a whole project; nothing else is that large. */
export const bundleMaxBytes = 8 * 1024 ** 3

function mostFor(fileName: string, usual: number): number {
  return fileName.endsWith(bundleFileEnding) ? bundleMaxBytes : usual
}

async function store(
  path: string,
  chunks: AsyncIterable<Uint8Array>,
  mostBytes: number,
  signal: AbortSignal | undefined,
): Promise<Pick<Upload, 'bytes' | 'sha256'>> {
  const hash = createHash('sha256')
  let bytes = 0
  const file = await open(path, 'wx', 0o600)
  try {
    for await (const chunk of chunks) {
      signal?.throwIfAborted()
      bytes += chunk.length
      if (bytes > mostBytes) throw tooLarge(mostBytes)
      hash.update(chunk)
      await file.writeFile(chunk)
    }
    signal?.throwIfAborted()
  } finally {
    await file.close()
  }
  return { bytes, sha256: hash.digest('hex') }
}

function tooLarge(mostBytes: number): InputError {
  const limit = `${Math.round(mostBytes / 1024 / 1024).toLocaleString('en-GB')} MB`
  return new InputError(
    'upload',
    `The file is larger than ${limit}; split it, or export a shorter time from the logger.`,
  )
}

/** The last part of whatever path or name was given, fit to be shown and kept. */
function shownFileName(name: string): string {
  const last = name.split(/[/\\]/).at(-1) ?? ''
  const clean = last.replace(/\p{C}/gu, '').trim().slice(0, 200)
  return clean === '' ? 'unnamed file' : clean
}
