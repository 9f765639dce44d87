import { readFile, stat } from 'node:fs/promises'
import { keepPhoto, sha256Hex } from '#db/index.ts'
import type { TakenIn } from '#model/contract/photos.ts'
import { InputError } from '#model/errors.ts'
import { type PhotoFormat, photoLimits } from '#model/record/photos.ts'
import { type BarePhoto, BrokenPhoto } from './bare.ts'
import { bareJpeg } from './bare-jpeg.ts'
import { barePng } from './bare-png.ts'
import { bareWebp } from './bare-webp.ts'
import { imaging } from './imaging.ts'
import { formatOf } from './photo-format.ts'
import { momentTaken } from './taken-at.ts'
import { makeThumbnail, smallerPicture } from './thumbnail.ts'

export interface TakeInQuestion {
  recordFile: string
  /** Where the file waits, and what the person's file was called. */
  path: string
  fileName: string
  keepPosition: boolean
  /** Time zone of the site, for a camera that says only what its clock showed. */
  timeZone: string
  now: number
  thumbnails: string
}

const bareOf: Record<PhotoFormat, (bytes: Buffer) => BarePhoto> = {
  'image/jpeg': bareJpeg,
  'image/png': barePng,
  'image/webp': bareWebp,
}

/**
 * Takes a photo in: takes its metadata out without touching a pixel, sees that it can be shown, and keeps it beside the
 * record by its hash. The entry that names it is still to be written.
 * @throws InputError with a sentence when it is no photo that can be kept; RecordError when the disk refuses
 */
export async function takePhotoIn(question: TakeInQuestion): Promise<TakenIn> {
  const { recordFile, path, fileName, keepPosition, timeZone, now, thumbnails } = question
  const refuse = refusing(fileName)
  const { size } = await stat(path)
  if (size > photoLimits.bytes)
    throw refuse(
      `is ${megabytes(size)}; a photo may have ${megabytes(photoLimits.bytes)} at most. Save it smaller`,
    )
  const original = await readFile(path)
  const format = requireFormat(original, refuse)
  const bare = bareOrRefused(original, format, refuse)
  const bytes = keepPosition ? original : bare.bytes
  const { widthPx, heightPx } = await sizeOf(bytes, refuse)
  await requireShowable(bytes, refuse)
  const { sha256 } = keepPhoto(recordFile, bytes, format)
  await makeThumbnail({ photo: bytes, sha256, folder: thumbnails, size: 'small' })
  return {
    format,
    widthPx,
    heightPx,
    bytes: bytes.length,
    sha256,
    originalSha256: sha256Hex(original),
    fileName,
    gpsKept: keepPosition,
    takenAt: momentTaken(bare.notes, timeZone, now),
  }
}

type Refuse = (words: string, cause?: unknown) => InputError

function refusing(fileName: string): Refuse {
  return (words, cause) => {
    const error = new InputError('upload', `“${fileName}” ${words}.`)
    error.cause = cause
    return error
  }
}

function requireFormat(bytes: Buffer, refuse: Refuse): PhotoFormat {
  const format = formatOf(bytes)
  if (format === 'heic') {
    throw refuse(
      'is a HEIC photo, which not every computer can show. Set the camera to JPEG for the next ones, and save or send this one as JPEG',
    )
  }
  if (format === 'avif' || format === 'other')
    throw refuse('is not a JPEG, PNG or WebP photo. Save it as JPEG and choose it again')
  return format
}

function bareOrRefused(bytes: Buffer, format: PhotoFormat, refuse: Refuse): BarePhoto {
  try {
    return bareOf[format](bytes)
  } catch (cause) {
    const isBroken = cause instanceof BrokenPhoto || cause instanceof RangeError
    if (!isBroken) throw cause
    const why = cause instanceof BrokenPhoto ? cause.message : 'its parts do not fit together'
    throw refuse(`cannot be kept: ${why}. Copy it from the camera again`, cause)
  }
}

/** Size of the picture as it stands upright. It is read from its head, before anything is unpacked. */
async function sizeOf(bytes: Buffer, refuse: Refuse): Promise<{ widthPx: number; heightPx: number }> {
  const sharp = await imaging()
  try {
    const { width, height, autoOrient } = await sharp(bytes, { limitInputPixels: false }).metadata()
    if (width * height > photoLimits.pixels || Math.max(width, height) > photoLimits.sidePx) {
      throw refuse(
        `has ${width} × ${height} pixels; a photo may have ${photoLimits.pixels / 1e6} million at most. Save it smaller`,
      )
    }
    return { widthPx: autoOrient.width, heightPx: autoOrient.height }
  } catch (cause) {
    if (cause instanceof InputError) throw cause
    throw refuse('is damaged: its head cannot be read. Copy it from the camera again', cause)
  }
}

/** A photo whose picture breaks off is refused now, not found out when it is needed. */
async function requireShowable(bytes: Buffer, refuse: Refuse): Promise<void> {
  try {
    await smallerPicture(bytes, 'small')
  } catch (cause) {
    // Whatever the decoder says, it says of this file.
    throw refuse('is damaged: it cannot be shown to its end. Copy it from the camera again', cause)
  }
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(bytes < 10e6 ? 1 : 0)} MB`
}
