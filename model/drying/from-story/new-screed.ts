import { dayMs } from '#model/time.ts'
import type { BayStory } from '../../record/story.ts'
import { forecastReady } from '../forecast/forecast.ts'
import type { NewScreedDrying } from '../forecast-shape.ts'
import { forecastInputOfStory, type StoryQuestion } from './forecast-input.ts'
import { gridWithProgress } from './grid-progress.ts'

/**
 * Returns how long a new screed like the bay's own would take to keep the limit of the covering, laid today in the room as
 * it stands: same material and thickness, sealed for its usual days, no reading yet. Method and validity as in `forecastReady`.
 *
 * @param onProgress told after each of the grid's diffusivity factors.
 * @returns days from laying, curing among them; null for what may not be reached within two years; what is missing in sentences.
 * @throws InputError when the project's rules do not exist in this version
 * @provenance our judgement; a forecast plans and never releases a bay
 */
export function newScreedDrying(
  story: BayStory,
  question: StoryQuestion,
  onProgress: (done: number, of: number) => void = () => undefined,
): NewScreedDrying {
  const { input, missing } = forecastInputOfStory(story, question)
  if (input === null) return { p50Days: null, p90Days: null, missing }
  const { asOf } = question
  const sealedUntil = asOf + input.material.constants.sealedDays.value * dayMs
  const laidNow = { ...input, asOf, readings: [], curing: { ...input.curing, laidAt: asOf, sealedUntil } }
  const forecast = forecastReady(laidNow, gridWithProgress(onProgress))
  const days = (date: string | null) => (date === null ? null : Math.ceil((Date.parse(date) - asOf) / dayMs))
  return { p50Days: days(forecast.p50), p90Days: days(forecast.p90), missing: forecast.missing }
}
