import { type BarePhoto, BrokenPhoto } from './bare.ts'
import { exifOfOrientation, noNotes, readExif } from './exif.ts'

const stays: ReadonlySet<string> = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ICCP'])
const hasExif = 0x08
const hasXmp = 0x04
const moves = 0x02

/**
 * Takes everything out of a WebP that is not the picture: Exif, XMP, unknown chunks, and whatever follows its end. The
 * coded picture is copied byte for byte; how it is turned stays.
 * @throws BrokenPhoto when its chunks do not follow each other, or it is a moving picture.
 * @source RFC 9649 (WebP Image Format) 2.3 to 2.7 @provenance from memory, checked against libvips
 */
export function bareWebp(bytes: Buffer): BarePhoto {
  let notes = noNotes
  const kept: Buffer[] = []
  const end = Math.min(bytes.length, 8 + bytes.readUInt32LE(4))
  let at = 12
  while (at + 8 <= end) {
    const size = bytes.readUInt32LE(at + 4)
    if (at + 8 + size > bytes.length) throw new BrokenPhoto('it ends in the middle')
    const chunk = bytes.subarray(at, at + 8 + size)
    const name = chunk.toString('latin1', 0, 4)
    if (name === 'EXIF') notes = readExif(withoutName(chunk.subarray(8)))
    if (name === 'VP8X' && ((chunk[8] ?? 0) & moves) !== 0)
      throw new BrokenPhoto('it is a moving picture; save one picture of it')
    if (stays.has(name)) kept.push(padded(Buffer.from(chunk)))
    at += 8 + size + (size % 2)
  }
  const head = kept.find((chunk) => chunk.toString('latin1', 0, 4) === 'VP8X')
  if (!kept.some((chunk) => chunk.toString('latin1', 0, 3) === 'VP8' && chunk !== head))
    throw new BrokenPhoto('it holds no picture')
  const isTurned = notes.orientation !== 1 && head !== undefined
  if (head !== undefined) head[8] = (head[8]! & ~(hasExif | hasXmp)) | (isTurned ? hasExif : 0)
  const chunks = Buffer.concat([...kept, ...(isTurned ? [exifChunk(notes.orientation)] : [])])
  const riff = Buffer.from('RIFF\0\0\0\0WEBP', 'latin1')
  riff.writeUInt32LE(4 + chunks.length, 4)
  return { bytes: Buffer.concat([riff, chunks]), notes }
}

/** Some programs put the name of a JPEG segment before the block. */
function withoutName(block: Buffer): Buffer {
  return block.toString('latin1', 0, 6) === 'Exif\0\0' ? block.subarray(6) : block
}

function exifChunk(orientation: number): Buffer {
  const body = exifOfOrientation(orientation)
  const head = Buffer.from('EXIF\0\0\0\0', 'latin1')
  head.writeUInt32LE(body.length, 4)
  return padded(Buffer.concat([head, body]))
}

function padded(chunk: Buffer): Buffer {
  return chunk.length % 2 === 0 ? chunk : Buffer.concat([chunk, Buffer.alloc(1)])
}
