import { bayStory, closeRecord, openRecord } from '#db/index.ts'
import { type NewScreedDrying, newScreedDrying } from '#model/drying/index.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Report } from './jobs.ts'
import { questionOfStory } from './question-of-story.ts'

export interface NewScreedQuestion {
  recordFile: string
  bay: BayId
  /** The day on which it would be laid [epoch ms]. */
  asOf: number
}

/** Foretells how long new screed in place of a bay's own would dry. @throws UnknownId, RecordError, InputError */
export async function forecastNewScreed(
  { recordFile, bay, asOf }: NewScreedQuestion,
  onProgress: Report,
): Promise<NewScreedDrying> {
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  try {
    const story = bayStory(record.read, bay)
    return newScreedDrying(story, questionOfStory(record.read, story, { asOf }), onProgress)
  } finally {
    closeRecord(record)
  }
}
