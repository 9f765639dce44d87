import { existsSync } from 'node:fs'
import { photoFile } from '#db/photos.ts'
import { photoLimits, photoTags } from '#model/record/photos.ts'
import { entriesOf } from '#model/record/story.ts'
import { imaging } from '../../photos/imaging.ts'
import type { BayFile } from './bay-file.ts'

/** A photo ready to be printed; without a picture where its file is missing or damaged. */
export interface PrintedPhoto {
  entry: string
  at: number
  caption: string
  sha256: string
  /** A data URL of a JPEG. */
  picture: string | null
}

/** So many pixels of the longer side are sharp at the size in which photos are printed [px]. */
const sidePx = 900
/** More than these would make a file that nobody sends; the others stand in the record and are counted. */
export const mostPhotos = 24

/** Returns the photos of a bay, upright and small, oldest first. */
export async function photosOf({ story }: BayFile, recordFile: string): Promise<PrintedPhoto[]> {
  const photos: PrintedPhoto[] = []
  for (const { id, happenedAt, body } of entriesOf(story, 'photo-added').slice(0, mostPhotos)) {
    const file = photoFile(recordFile, body.sha256, body.format)
    photos.push({
      entry: id,
      at: happenedAt,
      caption: body.caption === undefined ? photoTags[body.tag] : `${photoTags[body.tag]}: ${body.caption}`,
      sha256: body.sha256,
      picture: existsSync(file) ? await jpegOf(file, body.quarterTurns) : null,
    })
  }
  return photos
}

/** Null for a file that no decoder can read: a damaged photo must not keep a handover from being made. */
async function jpegOf(file: string, quarterTurns: number): Promise<string | null> {
  const sharp = await imaging()
  try {
    const upright = await sharp(file, { limitInputPixels: photoLimits.pixels }).autoOrient().toBuffer()
    const small = await sharp(upright)
      .rotate(90 * quarterTurns)
      .resize({ width: sidePx, height: sidePx, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: 74 })
      .toBuffer()
    return `data:image/jpeg;base64,${small.toString('base64')}`
  } catch (cause) {
    if (cause instanceof Error) return null
    throw cause
  }
}
