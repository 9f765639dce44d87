import type { ReadHandle } from '#db/index.ts'
import type { StoryQuestion } from '#model/drying/index.ts'
import type { BayStory } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import { lessonsFor } from './lessons.ts'

/** The one way in which a bay of a record is asked about: with what other bays of its mix taught by then. */
export function questionOfStory(
  read: ReadHandle,
  story: BayStory,
  { covering = story.zone.body.covering, asOf }: { covering?: Covering | undefined; asOf: number },
): StoryQuestion & Required<Pick<StoryQuestion, 'lessons'>> {
  return { covering, asOf, lessons: lessonsFor(read, story, asOf) }
}
