import { crc32 } from 'node:zlib'
import sharp from 'sharp'
import { sha256Hex } from '#db/index.ts'

/** Numbers and words that occur nowhere in a picture by chance, so that any left-over of them is found. */
export const telltale = {
  degrees: 0x4a11c0de,
  minutes: 0x4a11c0df,
  words: ['GPS', 'Latitude', 'PHONE OF A PERSON', 'SERIAL-77120', 'A street and its number'],
}

interface CameraWords {
  orientation?: number
  takenAt?: string
  offset?: string
  order?: 'MM' | 'II'
}

/** An Exif block as a telephone writes it: how it is turned, maker, time, and a position. */
export function exifBlock({ orientation = 1, takenAt, offset, order = 'MM' }: CameraWords = {}): Buffer {
  const little = order === 'II'
  const tiff = Buffer.alloc(1024)
  const u16 = (value: number, at: number) =>
    little ? tiff.writeUInt16LE(value, at) : tiff.writeUInt16BE(value, at)
  const u32 = (value: number, at: number) =>
    little ? tiff.writeUInt32LE(value, at) : tiff.writeUInt32BE(value, at)
  let free = 400
  const keep = (bytes: Buffer) => {
    bytes.copy(tiff, free)
    free += bytes.length + (bytes.length % 2)
    return free - bytes.length - (bytes.length % 2)
  }
  const directory = (at: number, fields: [tag: number, type: number, count: number, value: number][]) => {
    u16(fields.length, at)
    for (const [i, [tag, type, count, value]] of fields.entries()) {
      const entry = at + 2 + i * 12
      u16(tag, entry)
      u16(type, entry + 2)
      u32(count, entry + 4)
      if (type === 3) u16(value, entry + 8)
      else u32(value, entry + 8)
    }
  }
  const words = (text: string) => [text.length + 1, keep(Buffer.from(`${text}\0`, 'latin1'))] as const
  tiff.write(order, 0, 'latin1')
  u16(42, 2)
  u32(8, 4)
  directory(8, [
    [0x010f, 2, ...words('PHONE OF A PERSON')],
    [0x0112, 3, 1, orientation],
    [0x8769, 4, 1, 120],
    [0x8825, 4, 1, 240],
  ])
  directory(120, [
    ...(takenAt === undefined ? [] : [[0x9003, 2, ...words(takenAt)] as [number, number, number, number]]),
    ...(offset === undefined ? [] : [[0x9011, 2, ...words(offset)] as [number, number, number, number]]),
    [0xa431, 2, ...words('SERIAL-77120')],
  ])
  const angle = Buffer.alloc(24)
  for (const [i, value] of [telltale.degrees, 1, telltale.minutes, 1, 30, 1].entries()) {
    if (little) angle.writeUInt32LE(value, i * 4)
    else angle.writeUInt32BE(value, i * 4)
  }
  directory(240, [
    [0x0001, 2, 2, little ? 0x4e : 0x4e000000],
    [0x0002, 5, 3, keep(angle)],
  ])
  return tiff.subarray(0, free)
}

const xmp = '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:Description exif:GPSLatitude="51,30.5N"/></x:xmpmeta>'

function jpegSegment(code: number, body: Buffer): Buffer {
  const head = Buffer.from([0xff, code, 0, 0])
  head.writeUInt16BE(body.length + 2, 2)
  return Buffer.concat([head, body])
}

/** What a telephone puts around the picture of a JPEG, and behind its end. */
export function withCameraWords(jpeg: Buffer, words: CameraWords = {}): Buffer {
  const exif = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), exifBlock(words)])
  const behind = Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    jpegSegment(0xe1, exif),
    Buffer.from('A street and its number, in a moving picture behind the photo'),
  ])
  return Buffer.concat([
    jpeg.subarray(0, 2),
    jpegSegment(0xe1, exif),
    jpegSegment(0xe1, Buffer.from(`http://ns.adobe.com/xap/1.0/\0${xmp}`, 'latin1')),
    jpegSegment(0xed, Buffer.from('Photoshop 3.0\x008BIM A street and its number', 'latin1')),
    jpegSegment(0xe2, Buffer.from('MPF\0II*\0 A street and its number', 'latin1')),
    jpegSegment(0xfe, Buffer.from('A street and its number', 'latin1')),
    jpeg.subarray(2),
    behind,
  ])
}

export function pngChunk(name: string, body: Buffer): Buffer {
  const chunk = Buffer.alloc(12 + body.length)
  chunk.writeUInt32BE(body.length, 0)
  chunk.write(name, 4, 'latin1')
  body.copy(chunk, 8)
  chunk.writeUInt32BE(crc32(chunk.subarray(4, -4)), chunk.length - 4)
  return chunk
}

/** The same for a PNG: Exif and texts before the picture, a text after it, bytes behind its end. */
export function pngWithCameraWords(png: Buffer, words: CameraWords = {}): Buffer {
  const afterHead = 8 + 25
  const end = png.length - 12
  return Buffer.concat([
    png.subarray(0, afterHead),
    pngChunk('eXIf', exifBlock(words)),
    pngChunk('tEXt', Buffer.from('Comment\0A street and its number', 'latin1')),
    pngChunk('iTXt', Buffer.from(`XML:com.adobe.xmp\0\0\0\0\0${xmp}`, 'latin1')),
    png.subarray(afterHead, end),
    pngChunk('tIME', Buffer.from([7, 234, 11, 24, 7, 15, 0])),
    png.subarray(end),
    Buffer.from('A street and its number'),
  ])
}

function webpChunk(name: string, body: Buffer): Buffer {
  const head = Buffer.alloc(8)
  head.write(name, 0, 'latin1')
  head.writeUInt32LE(body.length, 4)
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)])
}

/** The same for a WebP of the simple form, made into one of the extended form. */
export function webpWithCameraWords(
  webp: Buffer,
  { widthPx, heightPx }: { widthPx: number; heightPx: number },
  words: CameraWords = {},
): Buffer {
  const head = Buffer.alloc(10)
  head[0] = 0x08 | 0x04
  head.writeUIntLE(widthPx - 1, 4, 3)
  head.writeUIntLE(heightPx - 1, 7, 3)
  const chunks = Buffer.concat([
    webpChunk('VP8X', head),
    webp.subarray(12),
    webpChunk('EXIF', exifBlock(words)),
    webpChunk('XMP ', Buffer.from(xmp)),
    webpChunk('NOTE', Buffer.from('A street and its number')),
  ])
  const riff = Buffer.from('RIFF\0\0\0\0WEBP', 'latin1')
  riff.writeUInt32LE(4 + chunks.length, 4)
  return Buffer.concat([riff, chunks, Buffer.from('A street and its number')])
}

/** A picture whose every corner differs, so that a wrong turn is seen, with fine detail. */
export function drawing(widthPx = 96, heightPx = 64) {
  const pixels = Buffer.alloc(widthPx * heightPx * 3)
  for (let i = 0; i < pixels.length; i++) {
    const x = Math.floor(i / 3) % widthPx
    const y = Math.floor(i / 3 / widthPx)
    pixels[i] = [(x * 255) / widthPx, (y * 255) / heightPx, ((x * 7) ^ (y * 13)) & 255][i % 3]!
  }
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
}

/** The hash of the decoded values of a picture as it stands upright, and its size. */
export async function pixelsOf(photo: Buffer) {
  const { data, info } = await sharp(photo).autoOrient().raw().toBuffer({ resolveWithObject: true })
  return { pixels: sha256Hex(data), width: info.width, height: info.height }
}

/** Everything in the bytes that tells of the camera or its position. */
export function leftOvers(photo: Buffer): string[] {
  const numbers = [telltale.degrees, telltale.minutes].flatMap((value) => {
    const [big, little] = [Buffer.alloc(4), Buffer.alloc(4)]
    big.writeUInt32BE(value)
    little.writeUInt32LE(value)
    return [big, little]
  })
  return [
    ...telltale.words.filter((word) => photo.includes(Buffer.from(word, 'latin1'))),
    ...numbers.filter((bytes) => photo.includes(bytes)).map((bytes) => bytes.toString('hex')),
  ]
}
