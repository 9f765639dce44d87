/** What the camera wrote into a photo, as far as the record has a use for it. */
export interface CameraNotes {
  /** 1 to 8: how the stored picture must be turned and mirrored to stand upright. */
  orientation: number
  /** As the camera's clock showed it, such as `2026:11:24 07:15:00`; null when it says nothing. */
  takenAt: string | null
  /** The offset of that clock from UTC, such as `+01:00`; null when it says nothing. */
  offset: string | null
  hasPosition: boolean
}

export const noNotes: CameraNotes = { orientation: 1, takenAt: null, offset: null, hasPosition: false }

const tags = {
  orientation: 0x0112,
  details: 0x8769,
  position: 0x8825,
  takenAt: 0x9003,
  offset: 0x9011,
} as const
const mostFields = 1000

/**
 * Reads the few fields of an Exif block that the record uses. A block that is cut or makes no sense says nothing: it
 * never stops a photo from being kept.
 * @param tiff the block from its byte order mark on.
 * @source CIPA DC-008 (Exif 2.32), TIFF 6.0 section 2 @provenance from memory, checked against libvips
 */
export function readExif(tiff: Uint8Array): CameraNotes {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength)
  if (view.byteLength < 8) return noNotes
  const mark = view.getUint16(0)
  if (mark !== 0x4949 && mark !== 0x4d4d) return noNotes
  const little = mark === 0x4949
  const main = fieldsAt(view, view.getUint32(4, little), little)
  const details = fieldsAt(view, longOf(view, main.get(tags.details), little), little)
  const turned = shortOf(view, main.get(tags.orientation), little)
  return {
    orientation: turned >= 1 && turned <= 8 ? turned : 1,
    takenAt: textOf(view, details.get(tags.takenAt), little),
    offset: textOf(view, details.get(tags.offset), little),
    hasPosition: main.has(tags.position),
  }
}

/** An Exif block that says how the picture is turned and nothing else. */
export function exifOfOrientation(orientation: number): Buffer {
  const tiff = Buffer.alloc(26)
  tiff.write('MM', 0, 'latin1')
  tiff.writeUInt16BE(42, 2)
  tiff.writeUInt32BE(8, 4)
  tiff.writeUInt16BE(1, 8)
  tiff.writeUInt16BE(tags.orientation, 10)
  tiff.writeUInt16BE(3, 12)
  tiff.writeUInt32BE(1, 14)
  tiff.writeUInt16BE(orientation, 18)
  return tiff
}

/** Where each field of a directory stands, by its tag. */
function fieldsAt(view: DataView, start: number, little: boolean): Map<number, number> {
  const fields = new Map<number, number>()
  if (start < 8 || start + 2 > view.byteLength) return fields
  const count = Math.min(view.getUint16(start, little), mostFields)
  for (let i = 0; i < count; i++) {
    const at = start + 2 + i * 12
    if (at + 12 > view.byteLength) break
    fields.set(view.getUint16(at, little), at)
  }
  return fields
}

function shortOf(view: DataView, at: number | undefined, little: boolean): number {
  return at === undefined ? 0 : view.getUint16(at + 8, little)
}

function longOf(view: DataView, at: number | undefined, little: boolean): number {
  return at === undefined ? 0 : view.getUint32(at + 8, little)
}

function textOf(view: DataView, at: number | undefined, little: boolean): string | null {
  if (at === undefined) return null
  const length = view.getUint32(at + 4, little)
  const from = length <= 4 ? at + 8 : view.getUint32(at + 8, little)
  if (length === 0 || length > 64 || from + length > view.byteLength) return null
  const bytes = new Uint8Array(view.buffer, view.byteOffset + from, length)
  const text = Buffer.from(bytes).toString('latin1').split('\0', 1)[0]!.trim()
  return text === '' ? null : text
}
