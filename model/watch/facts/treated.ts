import { metresToShape, type Point } from '#model/movement/polygon.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'

/** Repairs that leave resin or primer in the surface, unless the record says otherwise. */
const sealing = ['remove skin', 'fill', 'consolidate']
/** Resin spreads beside a crack and beyond an outline, and a box is a hand wide. Our judgement [m]. */
const spreadM = 0.3
/** From this share on the whole bay counts as treated. Our judgement. */
const wholeShare = 0.95

/**
 * Returns whether the surface at a place was treated by a repair before an instant: true or false where the record shows it,
 * null where treated places or the place itself are not written down.
 */
export function treatedAt(
  story: BayStory,
  place: { x?: number; y?: number },
  instant: number,
  areaM2: number,
): boolean | null {
  const answers = entriesOf(story, 'repair-done')
    .filter(
      ({ body, happenedAt }) => happenedAt <= instant && (body.sealsSurface ?? sealing.includes(body.option)),
    )
    .map((repair) => treats(story, repair, place, areaM2))
  if (answers.includes(true)) return true
  return answers.includes(null) ? null : false
}

function treats(
  story: BayStory,
  { body }: StoryEntryOf<'repair-done'>,
  { x, y }: { x?: number; y?: number },
  areaM2: number,
): boolean | null {
  if (body.areaM2 !== undefined && body.areaM2 >= wholeShare * areaM2) return true
  const treated = body.outline ?? placeOfDefect(story, body.defect)
  if (treated === null || x === undefined || y === undefined) return null
  return metresToShape(treated, { x, y }) <= spreadM
}

function placeOfDefect(story: BayStory, id: string): readonly Point[] | null {
  const defect = entriesOf(story, 'defect-found').find((one) => (one.id as string) === id)?.body
  if (defect === undefined) return null
  if (defect.outline !== undefined) return defect.outline
  return defect.x === undefined || defect.y === undefined ? null : [{ x: defect.x, y: defect.y }]
}
