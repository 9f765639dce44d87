import { oc, type } from '@orpc/contract'
import { z } from 'zod'
import type { StoryEntryOf } from '../record/entry.ts'
import { type EntryId, idOf } from '../record/ids.ts'
import { type PhotoFormat, photoFormats } from '../record/photos.ts'
import { callErrors } from './errors.ts'

/** A small picture for lists, a large one to look at, and the photo itself. */
export const pictureSizes = ['small', 'large', 'whole'] as const
export type PictureSize = (typeof pictureSizes)[number]

/** What the record will say of a photo that is kept now and has no entry yet. */
export interface TakenIn {
  format: PhotoFormat
  widthPx: number
  heightPx: number
  bytes: number
  sha256: string
  originalSha256: string
  fileName: string
  gpsKept: boolean
  /** ISO 8601; null when the camera does not say, or says something that cannot be. */
  takenAt: string | null
}

export interface PhotosOfSubject {
  /** Newest happening first; withdrawn ones are left out. */
  photos: StoryEntryOf<'photo-added'>[]
  marks: StoryEntryOf<'photo-marked'>[]
}

const call = oc.errors(callErrors)
const project = idOf('project')
const subject = z.string().min(1).max(64)

/** Photos: the bytes come and go by these calls; what is said of a photo is written like any other fact. */
export const photoCalls = {
  /**
   * Keeps an uploaded photo beside the record, without its camera's position unless the project keeps it. What is still
   * to be written is the entry that names it. `already` is the same photo about the same thing, if there is one.
   */
  takeIn: call
    .input(
      z.strictObject({
        upload: z.string().regex(/^[0-9a-f]{32}$/, 'is not an upload of this session'),
        project,
        subject,
      }),
    )
    .output(type<{ photo: TakenIn; already: { entry: EntryId; of: EntryId | null } | null }>()),
  list: call.input(z.strictObject({ project, subject })).output(type<PhotosOfSubject>()),
  picture: call
    .input(
      z.strictObject({
        sha256: z.string().regex(/^[0-9a-f]{64}$/, 'is not the hash of a photo'),
        format: z.enum(Object.keys(photoFormats) as [PhotoFormat, ...PhotoFormat[]]),
        size: z.enum(pictureSizes),
      }),
    )
    .output(type<{ picture: Blob }>()),
}
