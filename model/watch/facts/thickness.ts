import { type BayStory, entriesOf } from '#model/record/story.ts'

export interface ThicknessPoint {
  mm: number
  at: number
  entry: string
  x?: number
  y?: number
}

/** Returns every thickness that was measured, in order of measuring. */
export function thicknessPoints(story: BayStory): ThicknessPoint[] {
  return entriesOf(story, 'thickness-measured').flatMap(({ id, happenedAt, body }) =>
    body.points.map(({ mm, x, y }) => ({ mm, x, y, at: happenedAt, entry: id })),
  )
}
