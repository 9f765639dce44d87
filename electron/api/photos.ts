import { openAsBlob } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { photoFile, projectOutline } from '#db/index.ts'
import { photoMarksAbout, photosAbout } from '#db/queries/photos.ts'
import type { PictureSize } from '#model/contract/photos.ts'
import type { PhotoFormat } from '#model/record/photos.ts'
import { imaging } from '../photos/imaging.ts'
import { thumbnailFile } from '../photos/thumbnail.ts'
import { takingTurns } from '../photos/turns.ts'
import { calls } from './base.ts'
import { callError } from './call-errors.ts'
import type { Services } from './services.ts'

/** One core is left to the person who looks on, and one thread to whoever reads a logger file meanwhile. */
const inTurn = takingTurns(Math.max(1, Math.min(2, availableParallelism() - 1)))

export const takeIn = calls.photos.takeIn.handler(async ({ context, input, signal }) => {
  const { read, file } = context.record.current()
  const { project, subject } = input
  const { id, path, fileName, sha256: originalSha256 } = context.uploads.find(input.upload)
  const { keepPhotoPosition = false, timeZone } = projectOutline(read, project).project.body
  await imaging()
  const photo = await inTurn(
    () =>
      context.workers.run('take photo in', {
        recordFile: file,
        path,
        fileName,
        keepPosition: keepPhotoPosition,
        timeZone,
        now: context.clock(),
        thumbnails: thumbnailFolder(context),
      }),
    signal,
  )
  await context.uploads.remove(id)
  const same = photosAbout(read, { project, subject }).find(
    ({ body }) => body.sha256 === photo.sha256 || body.originalSha256 === originalSha256,
  )
  return { photo, already: same === undefined ? null : { entry: same.id, of: same.body.of ?? null } }
})

export const list = calls.photos.list.handler(({ context, input }) => {
  const { read } = context.record.current()
  return { photos: photosAbout(read, input), marks: photoMarksAbout(read, input) }
})

export const picture = calls.photos.picture.handler(async ({ context, input, signal }) => {
  const { sha256, format, size } = input
  const file = photoFile(context.record.current().file, sha256, format)
  if (size === 'whole') return { picture: await pictureOf(file, format, sha256) }
  const made = thumbnailFile(thumbnailFolder(context), sha256, size)
  try {
    return { picture: await openAsBlob(made, { type: 'image/webp' }) }
  } catch (cause) {
    if (!isAbsent(cause)) throw cause
  }
  return { picture: await inTurn(() => freshPicture(context, { file, sha256, size }), signal) }
})

async function freshPicture(
  context: Services,
  { file, sha256, size }: { file: string; sha256: string; size: Exclude<PictureSize, 'whole'> },
): Promise<Blob> {
  // Asks first whether the photo is there, so that a missing one is told as missing and not as damaged.
  await pictureOf(file, 'image/webp', sha256)
  await imaging()
  const folder = thumbnailFolder(context)
  const made = await context.workers.run('make thumbnail', { photo: file, sha256, folder, size })
  return await openAsBlob(made, { type: 'image/webp' })
}

async function pictureOf(file: string, type: PhotoFormat, sha256: string): Promise<Blob> {
  try {
    return await openAsBlob(file, { type })
  } catch (cause) {
    if (!isAbsent(cause)) throw cause
    const words = `The photo ${file} is not there. Look for it in a copy of the data folder and put it back.`
    throw callError('NOT_FOUND', { what: 'photo', id: sha256 }, words)
  }
}

function thumbnailFolder({ folder }: Services): string {
  return join(folder.path, 'thumbnails')
}

function isAbsent(cause: unknown): boolean {
  return (
    cause instanceof Error &&
    'code' in cause &&
    (cause.code === 'ENOENT' || cause.code === 'ERR_INVALID_ARG_VALUE')
  )
}
