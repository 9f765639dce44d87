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

/** Returns the area of the bay in plan [m²] by the shoelace formula. */
export function areaM2Of(story: BayStory): number {
  const { outline } = story.bay.body
  const twice = outline.reduce((sum, { x, y }, i) => {
    const next = outline[(i + 1) % outline.length]!
    return sum + x * next.y - next.x * y
  }, 0)
  return Math.abs(twice) / 2
}
