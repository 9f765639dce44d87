import { crc32 } from 'node:zlib'
import { type BarePhoto, BrokenPhoto } from './bare.ts'
import { exifOfOrientation, noNotes, readExif } from './exif.ts'

/** The picture, and what says how its values become colours and sizes. */
const stays: ReadonlySet<string> = new Set([
  ...['IHDR', 'PLTE', 'IDAT', 'IEND'],
  ...['tRNS', 'bKGD', 'gAMA', 'cHRM', 'sRGB', 'iCCP', 'cICP', 'sBIT', 'pHYs'],
])

/**
 * Takes everything out of a PNG that is not the picture: Exif, texts, times, and whatever follows its end. The packed
 * pixels are copied byte for byte; how the picture is turned stays.
 * @throws BrokenPhoto when its chunks do not follow each other to its end.
 * @source W3C PNG Specification (Third Edition) 5 and 11 @provenance from memory, checked against libvips
 */
export function barePng(bytes: Buffer): BarePhoto {
  let notes = noNotes
  const kept: Buffer[] = []
  let at = 8
  for (;;) {
    if (at + 12 > bytes.length) throw new BrokenPhoto('it ends in the middle')
    const next = at + 12 + bytes.readUInt32BE(at)
    if (next > bytes.length) throw new BrokenPhoto('it ends in the middle')
    const chunk = bytes.subarray(at, next)
    const name = chunk.toString('latin1', 4, 8)
    if (name === 'eXIf') notes = readExif(chunk.subarray(8, -4))
    if (stays.has(name)) kept.push(chunk)
    if (name === 'IEND') break
    at = next
  }
  if (kept[0]?.toString('latin1', 4, 8) !== 'IHDR') throw new BrokenPhoto('it does not begin with its head')
  const turned = notes.orientation === 1 ? [] : [chunkOf('eXIf', exifOfOrientation(notes.orientation))]
  return { bytes: Buffer.concat([bytes.subarray(0, 8), kept[0], ...turned, ...kept.slice(1)]), notes }
}

function chunkOf(name: string, body: Buffer): Buffer {
  const chunk = Buffer.alloc(12 + body.length)
  chunk.writeUInt32BE(body.length, 0)
  chunk.write(name, 4, 'latin1')
  body.copy(chunk, 8)
  chunk.writeUInt32BE(crc32(chunk.subarray(4, -4)), chunk.length - 4)
  return chunk
}
