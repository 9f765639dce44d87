import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { hourMs } from './time.ts'

export interface ForecastWindow {
  /** Hours of the window that no forecast speaks of. */
  unknownHours: number
  coldest: { tempC: number; entry: StoryEntryOf<'weather-forecast-noted'> } | null
  hottest: { tempC: number; entry: StoryEntryOf<'weather-forecast-noted'> } | null
}

/** Returns what the forecasts say of a window, hour by hour; a later forecast replaces an earlier one. */
export function forecastFor(story: BayStory, from: number, until: number): ForecastWindow {
  const hours = Math.max(0, Math.ceil((until - from) / hourMs))
  const slots = new Array<StoryEntryOf<'weather-forecast-noted'> | null>(hours).fill(null)
  for (const forecast of entriesOf(story, 'weather-forecast-noted')) {
    const first = Math.max(0, Math.floor((Date.parse(forecast.body.from) - from) / hourMs))
    const last = Math.min(hours, Math.ceil((Date.parse(forecast.body.until) - from) / hourMs))
    for (let hour = first; hour < last; hour++) slots[hour] = forecast
  }
  const said = slots.filter((slot) => slot !== null)
  const coldest = said.reduce<(typeof said)[number] | null>(
    (best, each) => (best === null || each.body.lowestC < best.body.lowestC ? each : best),
    null,
  )
  const hottest = said.reduce<(typeof said)[number] | null>(
    (best, each) => (best === null || each.body.highestC > best.body.highestC ? each : best),
    null,
  )
  return {
    unknownHours: hours - said.length,
    coldest: coldest && { tempC: coldest.body.lowestC, entry: coldest },
    hottest: hottest && { tempC: hottest.body.highestC, entry: hottest },
  }
}
