import { type BarePhoto, BrokenPhoto } from './bare.ts'
import { exifOfOrientation, noNotes, readExif } from './exif.ts'

const marker = {
  start: 0xd8,
  end: 0xd9,
  scan: 0xda,
  app0: 0xe0,
  app1: 0xe1,
  app2: 0xe2,
  app14: 0xee,
} as const
const exifName = Buffer.from('Exif\0\0', 'latin1')

/**
 * Takes everything out of a JPEG that is not the picture: position, camera notes, thumbnails, comments, and whatever
 * follows its end. No pixel is touched, because the compressed picture is copied byte for byte. How the picture is
 * turned and its colour profile stay.
 * @throws BrokenPhoto when its segments do not follow each other to the end of a picture.
 * @source ITU-T T.81 (JPEG) B.1; CIPA DC-008 4.7.2; ICC.1:2022 B.4 @provenance from memory, checked against libvips
 */
export function bareJpeg(bytes: Buffer): BarePhoto {
  let notes = noNotes
  const kept: Buffer[] = []
  let pictures = 0
  let at = 2
  for (;;) {
    if (at + 2 > bytes.length) throw new BrokenPhoto('it ends in the middle')
    if (bytes[at] !== 0xff) throw new BrokenPhoto('a part of it does not begin where it should')
    const code = bytes[at + 1]!
    if (code === 0xff) {
      at += 1
      continue
    }
    if (code === marker.end) break
    const next = at + 2 + bytes.readUInt16BE(at + 2)
    if (next > bytes.length) throw new BrokenPhoto('it ends in the middle')
    const segment = bytes.subarray(at, next)
    if (code === marker.app1 && segment.subarray(4, 10).equals(exifName))
      notes = readExif(segment.subarray(10))
    if (staysInJpeg(code, segment)) kept.push(segment)
    at = next
    if (code !== marker.scan) continue
    pictures += 1
    const end = endOfScan(bytes, at)
    kept.push(bytes.subarray(at, end))
    at = end
  }
  if (pictures === 0) throw new BrokenPhoto('it holds no picture')
  const turned = notes.orientation === 1 ? [] : [exifSegment(notes.orientation)]
  const head = kept[0]?.[1] === marker.app0 ? kept.splice(0, 1) : []
  const ends = [Buffer.from([0xff, marker.start]), Buffer.from([0xff, marker.end])] as const
  return { bytes: Buffer.concat([ends[0], ...head, ...turned, ...kept, ends[1]]), notes }
}

/** Tables and frames, the JFIF and Adobe heads that say how colours are coded, and the ICC profile. */
function staysInJpeg(code: number, segment: Buffer): boolean {
  const name = segment.subarray(4, 16).toString('latin1')
  if (code === marker.app0) return name.startsWith('JFIF\0')
  if (code === marker.app2) return name.startsWith('ICC_PROFILE\0')
  if (code === marker.app14) return name.startsWith('Adobe')
  const isApplication = code >= marker.app0 && code <= 0xef
  const isComment = code === 0xfe
  return !isApplication && !isComment
}

/** Where the coded picture ends: at the first marker that is neither a stuffed byte nor a restart. */
function endOfScan(bytes: Buffer, from: number): number {
  for (let at = from; ; at += 2) {
    at = bytes.indexOf(0xff, at)
    if (at === -1 || at + 1 >= bytes.length) throw new BrokenPhoto('it ends in the middle')
    const code = bytes[at + 1]!
    const isRestart = code >= 0xd0 && code <= 0xd7
    if (code === 0xff) at -= 1
    else if (code !== 0 && !isRestart) return at
  }
}

function exifSegment(orientation: number): Buffer {
  const body = Buffer.concat([exifName, exifOfOrientation(orientation)])
  const head = Buffer.from([0xff, marker.app1, 0, 0])
  head.writeUInt16BE(body.length + 2, 2)
  return Buffer.concat([head, body])
}
