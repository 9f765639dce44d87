import { hourMs } from '#model/time.ts'
import type { SeriesQuantity } from '../../record/climate.ts'
import { type BayStory, entriesOf, type StorySeries } from '../../record/story.ts'
import type { ClimateSample } from '../climate.ts'

export interface PastClimate {
  /** One sample an hour at most, ascending. */
  samples: ClimateSample[]
  assumptions: string[]
}

/** Sums of one hour, so that years of readings a minute apart stay small. */
interface Hour {
  at: number
  airC: number
  rhPercent: number
  count: number
  airSpeed: { sum: number; count: number }
  screed: { sum: number; count: number }
}

/**
 * Returns the air of the room hour by hour from logger files and typed readings. A reading of humidity counts with the
 * temperature of the same instant in the same file; one without the other says nothing about drying. Outside air is
 * left out.
 */
export function pastClimateOf(story: BayStory, asOf: number): PastClimate {
  const hours = new Map<number, Hour>()
  const hourOf = (at: number) => {
    const key = Math.floor(at / hourMs)
    let hour = hours.get(key)
    if (hour === undefined) {
      hour = {
        at: (key + 0.5) * hourMs,
        airC: 0,
        rhPercent: 0,
        count: 0,
        airSpeed: { sum: 0, count: 0 },
        screed: { sum: 0, count: 0 },
      }
      hours.set(key, hour)
    }
    return hour
  }
  const add = (at: number, airC: number, rhPercent: number) => {
    const hour = hourOf(at)
    hour.airC += airC
    hour.rhPercent += rhPercent
    hour.count++
  }

  const measured = story.series.filter(({ at }) => at.length > 0)
  for (const humidity of measured.filter(({ quantity }) => quantity === 'rhPercent')) {
    const air = measured.find(({ entry, quantity }) => entry === humidity.entry && quantity === 'airC')
    if (air !== undefined) eachPair(air, humidity, asOf, add)
  }
  for (const { happenedAt, body } of entriesOf(story, 'air-read')) {
    if (happenedAt > asOf || body.rhPercent === undefined || body.place === 'outside') continue
    add(happenedAt, body.airC, body.rhPercent)
    if (body.airSpeedMs !== undefined) include(hourOf(happenedAt).airSpeed, body.airSpeedMs)
  }
  eachOf(measured, 'airSpeedMs', asOf, (at, value) => include(hourOf(at).airSpeed, value))
  eachOf(measured, 'screedC', asOf, (at, value) => include(hourOf(at).screed, value))
  for (const { happenedAt, body } of entriesOf(story, 'screed-temperature-read')) {
    if (happenedAt <= asOf) include(hourOf(happenedAt).screed, body.screedC)
  }

  const samples = [...hours.values()]
    .filter(({ count }) => count > 0)
    .sort((a, b) => a.at - b.at)
    .map((hour): ClimateSample => {
      const { airSpeed, screed } = hour
      return {
        // The middle of the current hour may lie ahead; nothing may.
        at: Math.min(hour.at, asOf),
        airC: hour.airC / hour.count,
        rhPercent: Math.max(1, hour.rhPercent / hour.count),
        ...(airSpeed.count > 0 && { airSpeedMs: Math.min(25, airSpeed.sum / airSpeed.count) }),
        ...(screed.count > 0 && { screedC: screed.sum / screed.count }),
      }
    })
  const made = [...new Set(measured.flatMap(({ madeBy }) => madeBy ?? []))]
  return { samples, assumptions: made.map((by) => `Room climate that was not measured: ${by}`) }
}

function include(mean: { sum: number; count: number }, value: number): void {
  mean.sum += value
  mean.count++
}

function eachOf(
  series: readonly StorySeries[],
  quantity: SeriesQuantity,
  asOf: number,
  take: (at: number, value: number) => void,
): void {
  for (const one of series) {
    if (one.quantity !== quantity) continue
    for (let i = 0; i < one.at.length && one.at[i]! <= asOf; i++) take(one.at[i]!, one.value[i]!)
  }
}

/** Walks two ascending series together and gives the instants that both have. */
function eachPair(
  a: StorySeries,
  b: StorySeries,
  asOf: number,
  take: (at: number, valueA: number, valueB: number) => void,
): void {
  let i = 0
  for (let j = 0; j < b.at.length && b.at[j]! <= asOf; j++) {
    while (i < a.at.length && a.at[i]! < b.at[j]!) i++
    if (a.at[i] === b.at[j]) take(b.at[j]!, a.value[i]!, b.value[j]!)
  }
}
