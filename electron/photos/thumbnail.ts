import { randomBytes } from 'node:crypto'
import { mkdir, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { PictureSize } from '#model/contract/photos.ts'
import { photoLimits } from '#model/record/photos.ts'
import { imaging } from './imaging.ts'

type MadeSize = Exclude<PictureSize, 'whole'>

/** The longer side [px] and the quality of each size that is made. */
const made: Record<MadeSize, { sidePx: number; quality: number }> = {
  small: { sidePx: 360, quality: 72 },
  large: { sidePx: 2200, quality: 82 },
}

export interface ThumbnailQuestion {
  /** The photo itself, or where it stands. */
  photo: Buffer | string
  sha256: string
  folder: string
  size: MadeSize
}

/** Where a smaller picture of a photo stands once it was made. The folder may be emptied at any time. */
export function thumbnailFile(folder: string, sha256: string, size: MadeSize): string {
  return join(folder, `${sha256}-${size}.webp`)
}

/**
 * Makes a smaller, upright picture of a photo and puts it in the folder; the file is there whole or not at all.
 * @throws the decoder's error when the photo is damaged or too large; that of the disk
 */
export async function makeThumbnail({ photo, sha256, folder, size }: ThumbnailQuestion): Promise<string> {
  const picture = await smallerPicture(photo, size)
  await mkdir(folder, { recursive: true, mode: 0o700 })
  const file = thumbnailFile(folder, sha256, size)
  const building = `${file}.${randomBytes(4).toString('hex')}.part`
  try {
    await writeFile(building, picture, { mode: 0o600 })
    await rename(building, file)
  } finally {
    await rm(building, { force: true })
  }
  return file
}

/** The picture upright and no larger than its size allows, as WebP. @throws the decoder's error */
export async function smallerPicture(photo: Buffer | string, size: MadeSize): Promise<Buffer> {
  const sharp = await imaging()
  const { sidePx, quality } = made[size]
  return await sharp(photo, { limitInputPixels: photoLimits.pixels, failOn: 'error' })
    .autoOrient()
    .resize({ width: sidePx, height: sidePx, fit: 'inside', withoutEnlargement: true })
    .webp({ quality, effort: 2 })
    .toBuffer()
}
