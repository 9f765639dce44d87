import { type BayStory, storyAsOf } from '../../record/story.ts'
import { lessonOf } from '../forecast/lesson.ts'
import type { BayLesson } from '../forecast/pool.ts'
import { dryingOfStory } from './forecast-input.ts'

/**
 * Returns what a bay teaches others of its mix at `asOf`: the factor that its valid tests point at, under the
 * material's own prior, from what had happened by then. Null when it teaches nothing: no usable test, air not recorded,
 * or a screed that cannot be foretold.
 * @param name as a reader of another bay's forecast knows it
 * @throws InputError when the project's rules do not exist in this version
 */
export function lessonOfStory(story: BayStory, asOf: number, name: string): BayLesson | null {
  const { bay } = dryingOfStory(storyAsOf(story, asOf), asOf)
  const lesson = bay === null ? null : lessonOf(bay)
  return lesson === null ? null : { bay: story.bay.id, name, ...lesson }
}
