import { type BayStory, entriesOf } from '../../record/story.ts'
import { type Material, materials } from '../materials.ts'

/** A fact taken from a story, with what had to be assumed for it. */
export interface Taken<T> {
  value: T
  assumption: string | null
}

/** Returns the material whose drying stands for the screed of a bay, or what is missing to know it. */
export function materialOf(story: BayStory): { material: Material } | { missing: string } {
  switch (story.bay.body.screed) {
    case 'cement-sand':
      return { material: materials.cementSandScreed }
    case 'calcium sulfate':
      return { material: materials.calciumSulfateScreed }
    case 'fast drying':
      return {
        missing:
          'How fast this fast-drying screed dries: its maker’s data sheet says so, and the record does not hold it.',
      }
  }
}

/** Returns the mean thickness [mm]: as measured, else as found at the finish, else as designed. */
export function thicknessOf(story: BayStory): Taken<number> {
  const points = entriesOf(story, 'thickness-measured').flatMap(({ body }) => body.points)
  if (points.length > 0) {
    return { value: points.reduce((sum, { mm }) => sum + mm, 0) / points.length, assumption: null }
  }
  const found = entriesOf(story, 'bay-finished').findLast(({ body }) => body.meanThicknessMm !== undefined)
  if (found !== undefined) return { value: found.body.meanThicknessMm!, assumption: null }
  const { designThicknessMm } = story.bay.body
  return {
    value: designThicknessMm,
    assumption: `No thickness was measured; the design thickness of ${designThicknessMm} mm is assumed.`,
  }
}
