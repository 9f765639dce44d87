import { dayMs } from '#model/time.ts'
import { type BayStory, entriesOf, type StorySeries } from '../../record/story.ts'
import { recentDays } from '../from-story/forecast-input.ts'
import type { AirState } from '../humidity-ratio.ts'
import type { Known } from './shapes.ts'

/**
 * Returns the air outdoors as the record knows it: the mean of what was read outside in the last 14 days, else the
 * weather forecast noted for now; null when neither holds temperature and humidity.
 */
export function outdoorOfStories(stories: readonly BayStory[], asOf: number): Known<AirState> | null {
  return readOutside(stories, asOf) ?? foretoldOutside(stories, asOf)
}

function readOutside(stories: readonly BayStory[], asOf: number): Known<AirState> | null {
  const since = asOf - recentDays * dayMs
  const airC: number[] = []
  const rhPercent: number[] = []
  const seen = new Set<string>()
  for (const story of stories) {
    for (const one of story.series) {
      const values = { outsideC: airC, outsideRhPercent: rhPercent }[one.quantity as string]
      if (values === undefined || seen.has(seriesKey(one))) continue
      seen.add(seriesKey(one))
      one.at.forEach((at, i) => {
        if (at >= since && at <= asOf) values.push(one.value[i]!)
      })
    }
    for (const { id, happenedAt, body } of entriesOf(story, 'air-read')) {
      if (body.place !== 'outside' || happenedAt < since || happenedAt > asOf || seen.has(id)) continue
      seen.add(id)
      airC.push(body.airC)
      if (body.rhPercent !== undefined) rhPercent.push(body.rhPercent)
    }
  }
  if (airC.length === 0 || rhPercent.length === 0) return null
  return {
    value: { airC: mean(airC), rhPercent: mean(rhPercent) },
    from: 'record',
    because: `mean of ${airC.length === 1 ? '1 reading' : `${airC.length} readings`} outside in the last ${recentDays} days`,
  }
}

const seriesKey = ({ entry, series }: StorySeries) => `${entry} ${series}`

function foretoldOutside(stories: readonly BayStory[], asOf: number): Known<AirState> | null {
  const noted = stories
    .flatMap((story) => entriesOf(story, 'weather-forecast-noted'))
    .filter(({ happenedAt, body }) => happenedAt <= asOf && Date.parse(body.until) >= asOf)
    .toSorted((a, b) => a.happenedAt - b.happenedAt)
    .findLast(({ body }) => body.rhPercent !== undefined)
  if (noted === undefined) return null
  const { lowestC, highestC, rhPercent, givenBy } = noted.body
  return {
    value: { airC: 0.5 * (lowestC + highestC), rhPercent: rhPercent! },
    from: 'record',
    because: `middle of the weather forecast noted (${givenBy})`,
  }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
