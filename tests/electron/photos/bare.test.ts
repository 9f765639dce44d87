import fc from 'fast-check'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { BrokenPhoto } from '#electron/photos/bare.ts'
import { bareJpeg } from '#electron/photos/bare-jpeg.ts'
import { barePng } from '#electron/photos/bare-png.ts'
import { bareWebp } from '#electron/photos/bare-webp.ts'
import { momentTaken } from '#electron/photos/taken-at.ts'
import {
  drawing,
  leftOvers,
  pixelsOf,
  pngWithCameraWords,
  webpWithCameraWords,
  withCameraWords,
} from './camera.ts'

const size = { widthPx: 96, heightPx: 64 }
const orientations = [1, 2, 3, 4, 5, 6, 7, 8]

interface Sort {
  name: string
  bare: typeof bareJpeg
  plain: () => Promise<Buffer>
  words: (plain: Buffer, words: Parameters<typeof withCameraWords>[1]) => Buffer
}

const asWebp = (plain: Buffer, words: Parameters<typeof withCameraWords>[1]) =>
  webpWithCameraWords(plain, size, words)
const sorts: Sort[] = [
  { name: 'a JPEG', bare: bareJpeg, plain: () => drawing().jpeg().toBuffer(), words: withCameraWords },
  {
    name: 'a progressive JPEG with restarts of its scans',
    bare: bareJpeg,
    plain: () => drawing().jpeg({ progressive: true, chromaSubsampling: '4:4:4' }).toBuffer(),
    words: withCameraWords,
  },
  {
    name: 'a JPEG of four colours, whose Adobe head says how they are coded',
    bare: bareJpeg,
    plain: () => drawing().toColourspace('cmyk').jpeg().toBuffer(),
    words: withCameraWords,
  },
  { name: 'a PNG', bare: barePng, plain: () => drawing().png().toBuffer(), words: pngWithCameraWords },
  {
    name: 'a PNG with a palette',
    bare: barePng,
    plain: () => drawing().png({ palette: true, colours: 16 }).toBuffer(),
    words: pngWithCameraWords,
  },
  { name: 'a WebP', bare: bareWebp, plain: () => drawing().webp().toBuffer(), words: asWebp },
  {
    name: 'a lossless WebP',
    bare: bareWebp,
    plain: () => drawing().webp({ lossless: true }).toBuffer(),
    words: asWebp,
  },
]

describe.each(sorts)('$name without its metadata', ({ bare, plain, words }) => {
  it.each(orientations)(
    'BARE-1: turned %i: no position, name or text is left anywhere in the bytes, and every pixel is as it was',
    async (orientation) => {
      for (const order of ['MM', 'II'] as const) {
        const original = words(await plain(), { orientation, order })
        // Control: the same search finds them in what the camera wrote.
        expect(leftOvers(original).length).toBeGreaterThanOrEqual(5)
        const { bytes, notes } = bare(original)
        expect(leftOvers(bytes)).toEqual([])
        expect(notes).toMatchObject({ orientation, hasPosition: true })
        expect(await pixelsOf(bytes)).toEqual(await pixelsOf(original))
        const { exif, xmp, iptc, comments, orientation: left = 1 } = await sharp(bytes).metadata()
        expect({ xmp, iptc, comments, left }).toEqual({ left: orientation })
        expect(exif?.length ?? 0).toBeLessThan(40)
      }
    },
  )

  it('BARE-2: doing it again changes nothing', async () => {
    const { bytes } = bare(words(await plain(), { orientation: 6 }))
    expect(bare(bytes).bytes.equals(bytes)).toBe(true)
  })

  it('BARE-3: a file cut anywhere before its end is refused, or all its pixels are there', async () => {
    const original = words(await plain(), {})
    const whole = await pixelsOf(original)
    for (let end = 20; end < original.length; end += 17) {
      let bytes: Buffer
      try {
        bytes = bare(original.subarray(0, end)).bytes
      } catch (cause) {
        expect(cause instanceof BrokenPhoto || cause instanceof RangeError, `cut at ${end}`).toBe(true)
        continue
      }
      expect(await pixelsOf(bytes), `cut at ${end}`).toEqual(whole)
    }
  })
})

it('BARE-4: whatever a camera puts between the parts of a JPEG is gone, and the picture is the same', async () => {
  const jpeg = await drawing().jpeg().toBuffer()
  const whole = await pixelsOf(jpeg)
  const segment = fc.record({
    code: fc.constantFrom(0xe1, 0xe2, 0xe3, 0xe5, 0xec, 0xed, 0xef, 0xfe),
    body: fc.uint8Array({ minLength: 24, maxLength: 400 }),
  })
  await fc.assert(
    fc.asyncProperty(fc.array(segment, { maxLength: 6 }), async (segments) => {
      const between = segments.map(({ code, body }) => {
        const head = Buffer.from([0xff, code, 0, 0])
        head.writeUInt16BE(body.length + 2, 2)
        return Buffer.concat([head, body])
      })
      const { bytes } = bareJpeg(Buffer.concat([jpeg.subarray(0, 2), ...between, jpeg.subarray(2)]))
      expect(bytes.length).toBe(bareJpeg(jpeg).bytes.length)
      expect(await pixelsOf(bytes)).toEqual(whole)
    }),
    { numRuns: 60 },
  )
})

it('BARE-5: the colour profile stays, because without it the same values are other colours', async () => {
  const jpeg = await drawing().withIccProfile('p3').jpeg().toBuffer()
  const { icc } = await sharp(jpeg).metadata()
  expect(icc?.length).toBeGreaterThan(100)
  expect((await sharp(bareJpeg(jpeg).bytes).metadata()).icc?.equals(icc!)).toBe(true)
})

it('BARE-6: a moving WebP is refused', async () => {
  const frames = Buffer.alloc(96 * 64 * 3 * 2, 90)
  frames.fill(200, 0, frames.length / 2)
  const moving = await sharp(frames, { raw: { width: 96, height: 128, channels: 3, pageHeight: 64 } })
    .webp({ loop: 0 })
    .toBuffer()
  expect((await sharp(moving, { animated: true }).metadata()).pages).toBe(2)
  expect(() => bareWebp(moving)).toThrow(/moving picture/)
})

describe('when a photo was taken', () => {
  const now = Date.parse('2026-11-25T12:00:00Z')
  const taken = (takenAt: string | null, offset: string | null = null) =>
    momentTaken({ orientation: 1, hasPosition: false, takenAt, offset }, 'Europe/Zurich', now)

  it('TAKEN-1: an offset counts; without one the clock is that of the site', () => {
    expect(taken('2026:11:24 07:15:00', '+09:00')).toBe('2026-11-23T22:15:00.000Z')
    expect(taken('2026:11:24 07:15:00')).toBe('2026-11-24T06:15:00.000Z')
    expect(taken('2026:07:24 07:15:00')).toBe('2026-07-24T05:15:00.000Z')
    expect(taken('2026:10:25 02:30:00')).toBe('2026-10-25T00:30:00.000Z')
  })

  it('TAKEN-2: what cannot be is not known: no time, a skipped hour, the future, a clock that was never set', () => {
    for (const words of [
      null,
      '',
      '    :  :     :  :  ',
      '2026:02:30 10:00:00',
      '2026:03:29 02:30:00',
      '2026:11:25 13:30:00',
      '1980:01:01 00:00:00',
    ])
      expect(taken(words), String(words)).toBeNull()
  })
})
