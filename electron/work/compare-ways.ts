import { TZDate } from '@date-fns/tz'
import { format } from 'date-fns'
import { bayStory, closeRecord, openRecord } from '#db/index.ts'
import { forecastInputOfStory } from '#model/drying/index.ts'
import { type RoomPlan, type WayId, type WaysFound, waysOfStories } from '#model/drying/what-if/index.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import type { Report } from './jobs.ts'
import { questionOfStory } from './question-of-story.ts'

export interface CompareQuestion {
  recordFile: string
  /** Bays of one room. */
  bays: readonly BayId[]
  /** That of each bay's contract when left out. */
  covering?: Covering | undefined
  ways: readonly WayId[]
  plan: RoomPlan
  /** The day the comparison stands on [epoch ms]. */
  asOf: number
}

/**
 * Sets ways to dry the bays of a room beside each other, from the record as it stands, through a reading connection of
 * this thread. @throws UnknownId, RecordError, InputError
 */
export async function compareWaysHere(
  { recordFile, bays, covering, ways, plan, asOf }: CompareQuestion,
  onProgress: Report,
): Promise<WaysFound> {
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  try {
    const stories = [...new Set(bays)].map((bay) => bayStory(record.read, bay))
    const zone = stories[0]?.timeZone ?? 'UTC'
    return waysOfStories(
      stories,
      {
        asOf,
        ways,
        plan,
        inputOf: (story) =>
          forecastInputOfStory(story, questionOfStory(record.read, story, { covering, asOf })),
        dayOf: (atMs) => format(new TZDate(atMs, zone), 'd MMM yyyy'),
      },
      onProgress,
    )
  } finally {
    closeRecord(record)
  }
}
