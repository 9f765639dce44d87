import { bayStory, closeRecord, openRecord } from '#db/index.ts'
import { lastSeq } from '#db/queries/touched-since.ts'
import { forecastOfStory, type ReadyForecast } from '#model/drying/index.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import type { Report } from './jobs.ts'
import { questionOfStory } from './question-of-story.ts'

export interface ForecastQuestion {
  recordFile: string
  bay: BayId
  /** The covering of the contract when left out. */
  covering?: Covering | undefined
  /** The day the forecast stands on [epoch ms]. */
  asOf: number
}

export interface BayForecast {
  forecast: ReadyForecast
  project: string
  /** The bays that taught it. */
  teachers: string[]
  /** Position of the last entry that it knows; later ones may change it. */
  seq: number
}

/**
 * Foretells when a bay keeps the limit of a covering, from the record as it stands and from what other bays of its mix
 * taught, through a reading connection of this thread. @throws UnknownId, RecordError, InputError
 */
export async function forecastBay(
  { recordFile, bay, covering, asOf }: ForecastQuestion,
  onProgress: Report,
): Promise<BayForecast> {
  const record = openRecord(recordFile, { now: asOf, readOnly: true, skipLook: true })
  try {
    const seq = lastSeq(record.read)
    const story = bayStory(record.read, bay)
    const question = questionOfStory(record.read, story, { covering, asOf })
    const forecast = forecastOfStory(story, question, onProgress)
    return { forecast, project: story.project.id, teachers: question.lessons.map((one) => one.bay), seq }
  } finally {
    closeRecord(record)
  }
}
