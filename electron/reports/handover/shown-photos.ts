import type { StoryEntryOf } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import { entriesOf } from '#model/record/story.ts'

type Photo = StoryEntryOf<'photo-added'>

/** What was found wrong with a bay, what was learned about it, and how it was mended. */
export const defectKinds: readonly KindName[] = [
  'defect-found',
  'defect-closed',
  'crack-gauged',
  'defect-measured',
  'fault-evidence-noted',
  'cause-named',
  'repair-done',
  'repair-retested',
  'evidence-frozen',
]

/** A photo that shows a defect or a repair, and whether what it shows is a defect that nobody closed. */
export interface FaultPhoto {
  photo: Photo
  /** The symptom, when it shows a defect of this bay. */
  defect: StoryEntryOf<'defect-found'> | null
  isOpen: boolean
}

/** The photos of what was found or mended on a bay: those of open defects first, then the youngest. */
export function faultPhotosOf(story: BayStory): FaultPhoto[] {
  const ofFaults = new Set<string>(
    story.entries
      .filter(({ kind, withdrawn }) => !withdrawn && defectKinds.includes(kind))
      .map(({ id }) => id),
  )
  const defects = new Map<string, StoryEntryOf<'defect-found'>>(
    entriesOf(story, 'defect-found').map((entry) => [entry.id, entry]),
  )
  const closed = new Set<string>(entriesOf(story, 'defect-closed').map(({ body }) => body.defect))
  return entriesOf(story, 'photo-added')
    .filter(({ body }) => body.tag === 'defect' || (body.of !== undefined && ofFaults.has(body.of)))
    .map((photo) => {
      const defect = defects.get(photo.body.of ?? '') ?? null
      return { photo, defect, isOpen: defect !== null && !closed.has(defect.id) }
    })
    .toSorted((a, b) => Number(b.isOpen) - Number(a.isOpen) || b.photo.happenedAt - a.photo.happenedAt)
}

/** The drawings or photos that are kept as the plan of the heating circuits, of the bay or of its zone. */
export function circuitPlansOf(story: BayStory): Photo[] {
  return entriesOf(story, 'photo-added').filter(({ body }) => body.tag === 'circuit plan')
}
