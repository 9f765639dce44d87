import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { safe } from '@orpc/client'
import sharp from 'sharp'
import { beforeAll, describe, expect, it } from 'vitest'
import type { NewEntry } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { entry, morning, nextId } from '#tests/db/site.ts'
import { drawing, leftOvers, pixelsOf, withCameraWords } from '../photos/camera.ts'
import { openedWithSite } from './opened.ts'
import { all, once } from './served.ts'

let photo: Buffer
beforeAll(async () => {
  photo = withCameraWords(await drawing(400, 300).jpeg().toBuffer(), {
    orientation: 6,
    takenAt: '2026:11:02 06:30:00',
  })
})

type Opened = Awaited<ReturnType<typeof openedWithSite>>

async function takeIn({ client, services, site }: Opened, bytes: Buffer, name = 'strip.jpg') {
  const { id } = await services.uploads.receive(once(bytes), name)
  return client.photos.takeIn({ upload: id, project: site.project, subject: site.bay })
}

/** The body that a screen would write of a photo that was taken in. */
async function keep(opened: Opened, bytes: Buffer, more: Record<string, unknown> = {}) {
  const { photo: taken, already } = await takeIn(opened, bytes)
  const { takenAt, ...kept } = taken
  const body = {
    ...kept,
    ...(takenAt === null ? {} : { takenAt }),
    tag: 'edge strip',
    quarterTurns: 0,
    ...more,
  }
  const noted = entry(opened.site, 'photo-added', { body }) as unknown as NewEntry
  const { entries } = await opened.client.record.append({ entries: [noted] })
  return { taken, already, written: entries[0]! }
}

async function bytesOf(blob: Blob): Promise<Buffer> {
  return Buffer.from(await blob.arrayBuffer())
}

const refusalOf = async (work: Promise<unknown>) => {
  const { error } = await safe(work)
  return { code: (error as { code?: string }).code, message: error?.message ?? '' }
}

describe('photos', () => {
  it('PHOTO-1: a photo is kept without its position, upright size and time read, and comes back pixel for pixel', async () => {
    const opened = await openedWithSite()
    const { taken, written } = await keep(opened, photo)
    expect(taken).toMatchObject({
      format: 'image/jpeg',
      widthPx: 300,
      heightPx: 400,
      gpsKept: false,
      fileName: 'strip.jpg',
      takenAt: '2026-11-02T06:30:00.000Z',
    })
    const { photos } = await opened.client.photos.list({
      project: opened.site.project,
      subject: opened.site.bay,
    })
    expect(photos.map(({ id }) => id)).toEqual([written.id])
    const { picture } = await opened.client.photos.picture({
      sha256: taken.sha256,
      format: taken.format,
      size: 'whole',
    })
    const whole = await bytesOf(picture)
    expect(whole.length).toBe(taken.bytes)
    expect(leftOvers(whole)).toEqual([])
    expect(await pixelsOf(whole)).toEqual(await pixelsOf(photo))
    expect(readdirSync(join(opened.data, 'uploads'))).toEqual([])
  })

  it('PHOTO-2: a project that keeps positions keeps the file byte for byte', async () => {
    const opened = await openedWithSite()
    const { site, client } = opened
    const outline = await client.projects.outline({ project: site.project as ProjectId })
    const body = { ...outline.project.body, keepPhotoPosition: true }
    const change = entry(site, 'project-opened', {
      subject: site.project,
      body,
      corrects: site.project,
      reason: 'The client wants positions',
    })
    await client.record.append({ entries: [change as unknown as NewEntry] })
    const { photo: taken } = await takeIn(opened, photo)
    expect(taken).toMatchObject({ gpsKept: true, bytes: photo.length })
    expect(taken.sha256).toBe(taken.originalSha256)
    const { picture } = await client.photos.picture({
      sha256: taken.sha256,
      format: taken.format,
      size: 'whole',
    })
    expect((await bytesOf(picture)).equals(photo)).toBe(true)
  })

  it('PHOTO-3: the same photo is stored once, and about the same bay it is recognised', async () => {
    const opened = await openedWithSite()
    const first = await keep(opened, photo)
    const again = await takeIn(opened, photo, 'copy.jpg')
    expect(again.already).toEqual({ entry: first.written.id, of: null })
    const { id } = await opened.services.uploads.receive(once(photo), 'strip.jpg')
    const other = await opened.client.photos.takeIn({
      upload: id,
      project: opened.site.project,
      subject: opened.site.otherBay,
    })
    expect(other.already).toBeNull()
    const files = readdirSync(join(opened.data, 'photos'), { recursive: true, withFileTypes: true })
    expect(files.filter((file) => file.isFile()).map(({ name }) => name)).toEqual([
      `${first.taken.sha256}.jpg`,
    ])
  })

  it('PHOTO-4: small and large pictures are upright, small, and made again when their folder was emptied', async () => {
    const opened = await openedWithSite()
    const { taken } = await keep(opened, photo)
    const ask = (size: 'small' | 'large') =>
      opened.client.photos.picture({ sha256: taken.sha256, format: taken.format, size })
    for (const size of ['small', 'large'] as const) {
      const { picture } = await ask(size)
      const { width, height, format } = await sharp(await bytesOf(picture)).metadata()
      expect({ width, height, format }).toEqual(
        size === 'small'
          ? { width: 270, height: 360, format: 'webp' }
          : { width: 300, height: 400, format: 'webp' },
      )
    }
    rmSync(join(opened.data, 'thumbnails'), { recursive: true })
    const many = await Promise.all(Array.from({ length: 8 }, () => ask('small')))
    expect(new Set(many.map(({ picture }) => picture.size)).size).toBe(1)
    expect(readdirSync(join(opened.data, 'thumbnails'))).toEqual([`${taken.sha256}-small.webp`])
  })

  it('PHOTO-5: each file that is no photo to keep is refused with its name and what to do, and nothing is kept', async () => {
    const opened = await openedWithSite()
    const heic = Buffer.concat([
      Buffer.from([0, 0, 0, 24]),
      Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1'),
    ])
    const bomb = await sharp({
      create: { width: 12_000, height: 12_000, channels: 3, background: '#fff' },
      limitInputPixels: false,
    })
      .png()
      .toBuffer()
    const scrambled = await drawing(400, 300).png().toBuffer()
    scrambled.fill(0x5a, scrambled.length >> 1, (scrambled.length >> 1) + 4000)
    const cases: [string, Buffer, RegExp][] = [
      ['phone.heic', heic, /“phone\.heic” is a HEIC photo.*Set the camera to JPEG/],
      ['notes.txt', Buffer.from('hello'), /“notes\.txt” is not a JPEG, PNG or WebP photo\. Save it as JPEG/],
      ['drawing.svg', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), /not a JPEG, PNG or WebP/],
      ['half.jpg', photo.subarray(0, 6000), /“half\.jpg” cannot be kept: it ends in the middle\. Copy it/],
      ['bomb.png', bomb, /12000 × 12000 pixels; a photo may have 100 million at most\. Save it smaller/],
      ['scrambled.png', scrambled, /“scrambled\.png” (is damaged|cannot be kept)/],
      ['empty.jpg', Buffer.alloc(0), /“empty\.jpg” is not a JPEG/],
    ]
    for (const [name, bytes, words] of cases) {
      const { code, message } = await refusalOf(takeIn(opened, bytes, name))
      expect(code, name).toBe('INPUT_OUT_OF_RANGE')
      expect(message, name).toMatch(words)
    }
    expect(existsSync(join(opened.data, 'photos'))).toBe(false)
    expect(await takeIn(opened, photo)).toMatchObject({ photo: { format: 'image/jpeg' } })
  })

  it('PHOTO-6: an entry cannot name a photo that is not kept, nor can a correction exchange the photo', async () => {
    const opened = await openedWithSite()
    const { written, taken } = await keep(opened, photo)
    const other = { ...written.body, sha256: 'c'.repeat(64) }
    const append = (noted: unknown) => opened.client.record.append({ entries: [noted as NewEntry] })
    const missing = await refusalOf(append(entry(opened.site, 'photo-added', { body: other })))
    expect(missing.message).toMatch(
      /names a photo that is not kept beside this record: choose the photo again/,
    )
    const correct = (body: Record<string, unknown>) =>
      append(entry(opened.site, 'photo-added', { body, corrects: written.id, reason: 'Turned' }))
    expect((await refusalOf(correct(other))).message).toMatch(/must stay that of the photo/)
    await correct({
      ...written.body,
      quarterTurns: 1,
      caption: 'North wall',
      scale: [{ fromX: 0, fromY: 0, toX: 50, toY: 0, lengthMm: 100 }],
    })
    const { photos } = await opened.client.photos.list({
      project: opened.site.project,
      subject: opened.site.bay,
    })
    expect(photos[0]).toMatchObject({
      id: written.id,
      body: { quarterTurns: 1, caption: 'North wall', sha256: taken.sha256 },
    })
    expect(photos[0]!.versions).toHaveLength(2)
  })

  it('PHOTO-7: the check of the record tells a changed, a missing and a stray photo', async () => {
    const opened = await openedWithSite()
    const { taken } = await keep(opened, photo)
    const file = join(opened.data, 'photos', taken.sha256.slice(0, 2), `${taken.sha256}.jpg`)
    const report = async () => {
      const events = await all(await opened.client.record.verify())
      const last = events.at(-1)!
      if (last.kind !== 'done') throw new Error('no report')
      return last.report
    }
    expect(await report()).toMatchObject({ ok: true, photos: { kept: 1, withoutEntry: 0 } })

    mkdirSync(join(opened.data, 'photos', 'ab'), { recursive: true })
    writeFileSync(join(opened.data, 'photos', 'ab', `ab${'0'.repeat(62)}.jpg`), photo)
    expect(await report()).toMatchObject({ ok: true, photos: { kept: 1, withoutEntry: 1 } })

    const good = readFileSync(file)
    const bad = Buffer.from(good)
    bad[bad.length >> 1]! ^= 1
    writeFileSync(file, bad)
    expect((await report()).firstDifference).toMatch(/was changed after it was kept/)

    rmSync(file)
    expect((await report()).firstDifference).toMatch(/is missing/)
    const whole = opened.client.photos.picture({ sha256: taken.sha256, format: taken.format, size: 'whole' })
    expect(await refusalOf(whole)).toMatchObject({
      code: 'NOT_FOUND',
      message: expect.stringMatching(/is not there/),
    })

    // The same file added again puts the photo back in its place.
    expect((await takeIn(opened, photo)).photo.sha256).toBe(taken.sha256)
    expect(await report()).toMatchObject({ ok: true })
  })

  it('PHOTO-8: a photo can be of a floor or an instrument, and shows an entry of the project; of a person it cannot', async () => {
    const opened = await openedWithSite()
    const { taken } = await keep(opened, photo, { of: opened.site.bay })
    const { takenAt: _, ...kept } = taken
    const body = { ...kept, tag: 'other', quarterTurns: 0 }
    const noted = (subject: string) =>
      entry(opened.site, 'photo-added', { subject, body }) as unknown as NewEntry
    for (const subject of [opened.site.floor, opened.site.instrument, opened.site.project])
      await opened.client.record.append({ entries: [noted(subject)] })
    expect(
      (await refusalOf(opened.client.record.append({ entries: [noted(opened.site.person)] }))).code,
    ).toBe('NOT_FOUND')
    const stray = { ...body, of: nextId(morning) }
    const unknown = entry(opened.site, 'photo-added', { body: stray }) as unknown as NewEntry
    expect((await refusalOf(opened.client.record.append({ entries: [unknown] }))).code).toBe('NOT_FOUND')
  })
})
