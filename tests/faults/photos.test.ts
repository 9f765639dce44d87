import { spawn } from 'node:child_process'
import { existsSync, readdirSync, readFileSync, statfsSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { closeRecord, keepPhoto, openRecord, photoFile, photoFolder, sha256Hex, verify } from '#db/index.ts'
import { entry, morning, openSite, sampleBody, temporaryFolder } from '#tests/db/site.ts'
import { mountOf } from './mount.ts'

const writer = fileURLToPath(new URL('photo-writer.ts', import.meta.url))
const bytesOf = (name: string) => Buffer.from(`photo ${name} `.repeat(20_000))

describe('photos and faults', () => {
  it('PHOTO-FAULT-1: a crash between file and entry leaves a photo that harms nothing, is told, and is used by the next try', async () => {
    const { folder, forget } = temporaryFolder()
    try {
      const open = openSite(folder)
      const bytes = bytesOf('A')
      const { sha256, isNew } = keepPhoto(open.file, bytes, 'image/png')
      expect(isNew).toBe(true)
      // The sample photo of the site has no entry either.
      expect(await verify(open.record.read)).toMatchObject({ ok: true, photos: { kept: 0, withoutEntry: 2 } })
      expect(keepPhoto(open.file, bytes, 'image/png')).toEqual({ sha256, isNew: false })
      const body = {
        ...sampleBody(open.site, 'photo-added'),
        format: 'image/png',
        bytes: bytes.length,
        sha256,
        originalSha256: sha256,
      }
      open.append(entry(open.site, 'photo-added', { body }))
      expect(await verify(open.record.read)).toMatchObject({ ok: true, photos: { kept: 1, withoutEntry: 1 } })
      open.close()
    } finally {
      forget()
    }
  })

  it('PHOTO-FAULT-2: killed while it keeps photos, every one that was acknowledged is whole, and none is half there under its name', async () => {
    const { folder, forget } = temporaryFolder()
    try {
      const open = openSite(folder)
      open.close()
      let acknowledgements = 0
      for (const after of [1, 5, 12]) {
        const said = await saidUntilKilled([writer, open.file, 'keeping', String(after)], after)
        acknowledgements += said.length
        for (const sha256 of said) expect(existsSync(photoFile(open.file, sha256, 'image/jpeg'))).toBe(true)
        expect(brokenPhotos(open.file)).toEqual([])
      }
      expect(acknowledgements).toBeGreaterThanOrEqual(5)
      const record = openRecord(open.file, { now: morning })
      expect(await verify(record.read)).toMatchObject({ ok: true })
      closeRecord(record)
    } finally {
      forget()
    }
  }, 180_000)

  it('PHOTO-FAULT-3: control: a writer that writes under the name itself leaves a half photo, and this test sees it', async () => {
    const { folder, forget } = temporaryFolder()
    try {
      const open = openSite(folder)
      open.close()
      await saidUntilKilled([writer, open.file, 'control', '1'], 1)
      expect(brokenPhotos(open.file)).toHaveLength(1)
    } finally {
      forget()
    }
  }, 60_000)

  it('PHOTO-FAULT-4: on a full disk a photo is refused as "full", nothing of it is left, and there is room again when there is', async (context) => {
    const { folder, forget } = temporaryFolder()
    const mount = mountOf(folder, 'small', '6m')
    try {
      if (mount === null) return context.skip('needs root to mount a small disk')
      const open = openSite(mount.folder)
      const { bavail, bsize } = statfsSync(mount.folder)
      const ballast = path.join(mount.folder, 'ballast')
      writeFileSync(ballast, Buffer.alloc(bavail * bsize - 100_000))
      const before = filesIn(photoFolder(open.file))
      expect(() => keepPhoto(open.file, bytesOf('B'), 'image/jpeg')).toThrow(
        expect.objectContaining({
          name: 'RecordError',
          state: 'full',
          message: expect.stringMatching(/full.*nothing was written/s),
        }),
      )
      expect(filesIn(photoFolder(open.file))).toEqual(before)
      writeFileSync(ballast, '')
      expect(keepPhoto(open.file, bytesOf('B'), 'image/jpeg').isNew).toBe(true)
      expect(brokenPhotos(open.file)).toEqual([])
      open.close()
    } finally {
      mount?.unmount()
      forget()
    }
  })
})

function filesIn(folder: string): string[] {
  if (!existsSync(folder)) return []
  const all = readdirSync(folder, { recursive: true, withFileTypes: true })
  return all
    .filter((one) => one.isFile())
    .map((one) => path.join(one.parentPath, one.name))
    .sort()
}

/** Files with the name of a photo whose bytes are others. */
function brokenPhotos(recordFile: string): string[] {
  return filesIn(photoFolder(recordFile)).filter((file) => {
    const name = /^([0-9a-f]{64})\.(?:jpg|png|webp)$/.exec(path.basename(file))
    return name !== null && sha256Hex(readFileSync(file)) !== name[1]
  })
}

function saidUntilKilled(args: string[], after: number): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
    let said = ''
    child.stdout.setEncoding('utf8').on('data', (more: string) => {
      said += more
      if (said.split('\n').length > after) child.kill('SIGKILL')
    })
    child.on('error', reject)
    child.on('close', (code, signal) => {
      if (signal === 'SIGKILL') resolve(said.split('\n').slice(0, -1))
      else reject(new Error(`the writer ended by itself with ${code}`))
    })
  })
}
