import { existsSync } from 'node:fs'
import { photoFile } from '#db/photos.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { photoLimits, photoTags } from '#model/record/photos.ts'
import { entriesOf } from '#model/record/story.ts'
import { imaging } from '../../photos/imaging.ts'
import { symptomText } from '../entry-text.ts'
import type { BayFile } from './bay-file.ts'
import { circuitPlansOf, type FaultPhoto, faultPhotosOf } from './shown-photos.ts'

/** A photo ready to be printed; without a picture where its file is missing or damaged. */
export interface PrintedPhoto {
  entry: string
  at: number
  caption: string
  sha256: string
  /** A data URL of a JPEG. */
  picture: string | null
}

/** The photos of a bay that a file prints, by where they stand in it. */
export interface BayPhotos {
  /** On the page to decide on: what was found wrong or mended. */
  faults: readonly PrintedPhoto[]
  /** Beside the log of the heating. */
  circuitPlans: readonly PrintedPhoto[]
  /** All others, oldest first. */
  others: readonly PrintedPhoto[]
}

export const noPhotos: BayPhotos = { faults: [], circuitPlans: [], others: [] }

/** So many pixels of the longer side are sharp at the size in which photos are printed [px]. */
const sidePx = 900
/** A plan is printed over the width of the page, and its lines are thin [px]. */
const planSidePx = 1600
/** More than these would make a file that nobody sends; the others stand in the record and are counted. */
export const mostPhotos = 24
/** The page to decide on has room for so many. */
export const mostFaultPhotos = 3
const mostCircuitPlans = 4

/** Returns the photos of the page to decide on, upright and small; open defects first. */
export async function faultPhotosToPrint({ story }: BayFile, recordFile: string): Promise<PrintedPhoto[]> {
  const shown = faultPhotosOf(story).slice(0, mostFaultPhotos)
  return inTurn(shown, async (fault) => ({
    ...(await printed(fault.photo, recordFile, sidePx)),
    caption: faultCaption(fault),
  }))
}

/** Returns all photos of a bay that a file about it prints. */
export async function photosOf(bay: BayFile, recordFile: string): Promise<BayPhotos> {
  const plans = circuitPlansOf(bay.story)
  const others = entriesOf(bay.story, 'photo-added').filter((photo) => !plans.includes(photo))
  return {
    faults: await faultPhotosToPrint(bay, recordFile),
    circuitPlans: await inTurn(plans.slice(-mostCircuitPlans), (plan) =>
      printed(plan, recordFile, planSidePx),
    ),
    others: await inTurn(others.slice(0, mostPhotos), (photo) => printed(photo, recordFile, sidePx)),
  }
}

/** One after the other: a photo that is unpacked takes hundreds of megabytes. */
async function inTurn<T>(
  all: readonly T[],
  make: (one: T) => Promise<PrintedPhoto>,
): Promise<PrintedPhoto[]> {
  const made: PrintedPhoto[] = []
  for (const one of all) made.push(await make(one))
  return made
}

function faultCaption({ photo: { body }, defect, isOpen }: FaultPhoto): string {
  if (defect === null) return body.caption ?? photoTags[body.tag]
  return `${symptomText(defect.body.symptom)} (${isOpen ? 'open' : 'closed'})`
}

/** What it is kept for and what it shows, without saying the same twice. */
function captionOf({ tag, caption }: StoryEntryOf<'photo-added'>['body']): string {
  const kept = photoTags[tag]
  if (caption === undefined) return kept
  return caption.toLowerCase().startsWith(kept.toLowerCase()) ? caption : `${kept}: ${caption}`
}

async function printed(
  { id, happenedAt, body }: StoryEntryOf<'photo-added'>,
  recordFile: string,
  mostPx: number,
): Promise<PrintedPhoto> {
  const file = photoFile(recordFile, body.sha256, body.format)
  return {
    entry: id,
    at: happenedAt,
    caption: captionOf(body),
    sha256: body.sha256,
    picture: existsSync(file) ? await jpegOf(file, body.quarterTurns, mostPx) : null,
  }
}

/** Null for a file that no decoder can read: a damaged photo must not keep a handover from being made. */
async function jpegOf(file: string, quarterTurns: number, mostPx: number): Promise<string | null> {
  const sharp = await imaging()
  try {
    const upright = await sharp(file, { limitInputPixels: photoLimits.pixels }).autoOrient().toBuffer()
    const small = await sharp(upright)
      .rotate(90 * quarterTurns)
      .resize({ width: mostPx, height: mostPx, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: 74 })
      .toBuffer()
    return `data:image/jpeg;base64,${small.toString('base64')}`
  } catch (cause) {
    if (cause instanceof Error) return null
    throw cause
  }
}
