import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { bringPhotosBack } from '#db/backup-photos.ts'
import {
  backUp,
  closeRecord,
  keepPhoto,
  listBackups,
  openRecord,
  photoFile,
  restoreBackup,
  sha256Hex,
  verify,
} from '#db/index.ts'
import { startUp } from '#electron/start-up.ts'
import {
  day,
  entry,
  hour,
  morning,
  type OpenSite,
  openSite,
  sampleBody,
  samplePhoto,
  temporaryFolder,
} from './site.ts'

let folder: string
let forget: () => void
let open: OpenSite
let backups: string
beforeEach(() => {
  ;({ folder, forget } = temporaryFolder())
  open = openSite(folder)
  backups = path.join(folder, 'backups')
})
afterEach(() => {
  open.close()
  forget()
})

const second = Buffer.from('the bytes of another photo')
const fileOf = (bytes: Buffer, record = open.file) => photoFile(record, sha256Hex(bytes), 'image/jpeg')
const copyOf = (bytes: Buffer) => photoFile(path.join(backups, 'record'), sha256Hex(bytes), 'image/jpeg')

function addPhoto(bytes: Buffer): void {
  keepPhoto(open.file, bytes, 'image/jpeg')
  const sha256 = sha256Hex(bytes)
  const body = {
    ...sampleBody(open.site, 'photo-added'),
    bytes: bytes.length,
    sha256,
    originalSha256: sha256,
  }
  open.append(entry(open.site, 'photo-added', { body }))
}

describe('the photos of a backup', () => {
  it('BPH-1: a backup saves every photo that the record names, under its hash, and says how many', async () => {
    addPhoto(samplePhoto)
    addPhoto(second)
    // Kept and named by no entry: not of the record.
    keepPhoto(open.file, Buffer.from('nobody names me'), 'image/jpeg')
    const backup = await backUp(open.record, backups, morning)
    const bytes = samplePhoto.length + second.length
    expect(backup.photos).toEqual({ named: 2, saved: 2, bytes, copied: 2 })
    for (const photo of [samplePhoto, second]) expect(readFileSync(copyOf(photo))).toEqual(photo)
    expect(listBackups(backups)).toEqual([backup])
    const files = readdirSync(path.join(backups, 'photos'), { recursive: true, withFileTypes: true })
    expect(files.filter((one) => one.isFile())).toHaveLength(2)
  })

  it('BPH-2: a photo that is saved already is not written again; a damaged copy is', async () => {
    addPhoto(samplePhoto)
    await backUp(open.record, backups, morning)
    const written = statSync(copyOf(samplePhoto)).mtimeMs
    addPhoto(second)
    const next = await backUp(open.record, backups, morning + hour)
    expect(next.photos).toMatchObject({ named: 2, saved: 2, copied: 1 })
    expect(statSync(copyOf(samplePhoto)).mtimeMs).toBe(written)
    writeFileSync(copyOf(samplePhoto), Buffer.from(samplePhoto).fill(0x41))
    const mended = await backUp(open.record, backups, morning + 2 * hour)
    expect(mended.photos).toMatchObject({ saved: 2, copied: 1 })
    expect(readFileSync(copyOf(samplePhoto))).toEqual(samplePhoto)
  })

  it('BPH-3: a photo that is missing or changed beside the record is not counted as saved, and spoils no good copy', async () => {
    addPhoto(samplePhoto)
    addPhoto(second)
    rmSync(fileOf(samplePhoto))
    writeFileSync(fileOf(second), 'something else')
    expect((await backUp(open.record, backups, morning)).photos).toEqual({
      named: 2,
      saved: 0,
      bytes: 0,
      copied: 0,
    })
    writeFileSync(fileOf(second), second)
    await backUp(open.record, backups, morning + hour)
    writeFileSync(fileOf(second), 'something else')
    const last = await backUp(open.record, backups, morning + 2 * hour)
    expect(last.photos).toMatchObject({ named: 2, saved: 1, copied: 0 })
    expect(readFileSync(copyOf(second))).toEqual(second)
  })

  it('BPH-4: a record that names no photo, and a note that was damaged, are told as the record without photos', async () => {
    expect((await backUp(open.record, backups, morning)).photos).toBeNull()
    addPhoto(samplePhoto)
    const { file } = await backUp(open.record, backups, morning + hour)
    const note = file.replace('.backup', '.photos.json')
    for (const text of ['{', 'null', '{"named":"all"}']) {
      writeFileSync(note, text)
      expect(listBackups(backups)[0]!.photos, text).toBeNull()
    }
  })

  it('BPH-5: with an old backup its note goes; the copies of photos stay for the others', async () => {
    addPhoto(samplePhoto)
    for (let i = 0; i < 6; i++) await backUp(open.record, backups, morning + i * hour)
    const names = readdirSync(backups).filter((name) => name !== 'photos')
    expect(names.filter((name) => name.endsWith('.photos.json'))).toHaveLength(3)
    expect(names).toHaveLength(6)
    expect(readFileSync(copyOf(samplePhoto))).toEqual(samplePhoto)
  })
})

describe('restoring the photos', () => {
  it('BPH-6: on an empty disk, from the folder of backups alone, record and photos come back and are whole', async () => {
    addPhoto(samplePhoto)
    addPhoto(second)
    const { file } = await backUp(open.record, backups, morning)
    const target = path.join(folder, 'elsewhere', 'record.bayledger')
    mkdirSync(path.dirname(target))
    restoreBackup(target, file, { now: morning + day })
    const record = openRecord(target, { now: morning + day })
    expect(await verify(record.read)).toMatchObject({
      ok: false,
      firstDifference: expect.stringMatching(/missing/),
    })
    expect(await bringPhotosBack(record.read, backups)).toEqual({ back: 2, missing: 0 })
    expect(await verify(record.read)).toMatchObject({ ok: true, photos: { kept: 2, withoutEntry: 0 } })
    expect(await bringPhotosBack(record.read, backups)).toEqual({ back: 0, missing: 0 })
    closeRecord(record)
  })

  it('BPH-7: a copy with other bytes is not put back: the photo stays missing and is told', async () => {
    addPhoto(samplePhoto)
    await backUp(open.record, backups, morning)
    rmSync(fileOf(samplePhoto))
    writeFileSync(copyOf(samplePhoto), 'something else')
    expect(await bringPhotosBack(open.record.read, backups)).toEqual({ back: 0, missing: 1 })
    expect(await verify(open.record.read)).toMatchObject({ ok: false })
  })

  it('BPH-8: the way that the recovery page tells: folder of backups, newest backup under the name of the record, start', async () => {
    addPhoto(samplePhoto)
    const { file } = await backUp(open.record, backups, morning)
    const data = path.join(folder, 'new-machine')
    mkdirSync(data)
    cpSync(backups, path.join(data, 'backups'), { recursive: true })
    cpSync(file, path.join(data, 'record.sqlite'))
    const { services, stop } = await startUp({
      host: 'browser',
      version: '0',
      data,
      clock: () => morning + hour,
    })
    const { file: recordFile } = services.record.current()
    expect(statSync(fileOf(samplePhoto, recordFile), { throwIfNoEntry: false })).toBeUndefined()
    // What a start does some seconds later, a stop does at the latest.
    await stop()
    expect(readFileSync(fileOf(samplePhoto, recordFile))).toEqual(samplePhoto)
  })
})
