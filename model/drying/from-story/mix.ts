import { type Mix, mixOf } from '../../mix/same-mix.ts'
import { type BayStory, entriesOf } from '../../record/story.ts'

/** Returns the mix of a bay from its story. */
export function mixOfStory(story: BayStory): Mix {
  return mixOf(
    story.bay.body,
    entriesOf(story, 'batch-mixed').map(({ body }) => body),
  )
}
