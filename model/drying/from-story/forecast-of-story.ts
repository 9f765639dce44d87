import type { BayStory } from '../../record/story.ts'
import { forecastReady } from '../forecast/forecast.ts'
import type { ReadyForecast } from '../forecast-shape.ts'
import { forecastInputOfStory, type StoryQuestion } from './forecast-input.ts'
import { gridWithProgress } from './grid-progress.ts'

/**
 * Returns when a bay keeps the limit of a covering, from its story alone; see `forecastReady` for the method and
 * `forecastInputOfStory` for what is taken from where. What is missing is an answer: then all dates are null.
 * @param onProgress told after each of the grid's diffusivity factors.
 * @throws InputError when the project's rules do not exist in this version
 */
export function forecastOfStory(
  story: BayStory,
  question: StoryQuestion,
  onProgress: (done: number, of: number) => void = () => undefined,
): ReadyForecast {
  const { input, limit, assumptions, missing } = forecastInputOfStory(story, question)
  if (input === null) return nothingForetold(question.asOf, limit, missing)
  const forecast = forecastReady(input, gridWithProgress(onProgress))
  return { ...forecast, assumptions: [...new Set([...assumptions, ...forecast.assumptions])] }
}

function nothingForetold(
  asOf: number,
  limit: ReadyForecast['limit'],
  missing: readonly string[],
): ReadyForecast {
  return {
    asOf: new Date(asOf).toISOString(),
    limit,
    p10: null,
    p50: null,
    p90: null,
    notReachedProbability: 0,
    band: [],
    learned: null,
    drivers: [],
    readingsCheck: [],
    assumptions: [],
    why: [],
    missing: [...missing],
  }
}
