import { areaOf } from '#model/movement/index.ts'
import type { BayStory } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { type AirLog, airLogOf, outsideTrace } from './air.ts'
import { type Batch, batchesOf, type Load, loadsOf } from './batches.ts'
import { type CoverSpan, coverSpans, type OpenSpan, openSpans } from './cover.ts'
import { type Curing, curingOf } from './curing.ts'
import { type EvaporationPoint, evaporationPoints } from './evaporation.ts'
import { type HeatingDay, type HeatingPoint, heatingDays, heatingPoints } from './heating.ts'
import { type Life, lifeOf } from './life.ts'
import { type Protections, protectionsOf } from './protection.ts'
import { type ScreedTemperature, screedTemperatureOf } from './screed.ts'
import { type ThicknessPoint, thicknessPoints } from './thickness.ts'
import { dayMs, hourMs } from './time.ts'
import type { Trace } from './trace.ts'
import { type TrafficEvent, trafficEvents } from './traffic.ts'

/** What a story says, read once: every alert, the verdict and Today start from here. */
export interface BayFacts {
  story: BayStory
  asOf: number
  rules: EffectiveRules
  /** Readings further apart leave the time between unknown. */
  maxGapMs: number
  life: Life
  areaM2: number
  cover: CoverSpan[]
  /** Stretches without a sheet since the finish; empty before it. */
  open: OpenSpan[]
  curing: Curing | null
  protections: Protections
  screed: ScreedTemperature
  air: AirLog
  outside: Trace
  /** Rates in the first days after the finish, while it matters. */
  evaporation: EvaporationPoint[]
  traffic: TrafficEvent[]
  /** Of the zone, since this bay was begun. */
  heating: HeatingPoint[]
  /** Its hottest flow day by day. */
  heatingDays: HeatingDay[]
  thickness: ThicknessPoint[]
  batches: Batch[]
  loads: Load[]
}

/** Returns the facts of a story that was cut at `asOf`. */
export function factsOf(story: BayStory, asOf: number, rules: EffectiveRules): BayFacts {
  const maxGapMs = rules.limits['frost.seriesGapHours'].value * hourMs
  const life = lifeOf(story, asOf)
  const cover = coverSpans(story)
  const open = life.t0 === null ? [] : openSpans(cover, life.t0)
  const screed = screedTemperatureOf(story, life.t0, maxGapMs)
  const air = airLogOf(story)
  const start = life.startedAt ?? life.t0
  const heating = heatingPoints(story, start ?? Number.NEGATIVE_INFINITY)
  return {
    story,
    asOf,
    rules,
    maxGapMs,
    life,
    areaM2: areaOf(story.bay.body.outline),
    cover,
    open,
    curing: curingOf({ life, cover, open, screed: screed.coldest, air, rules, asOf }),
    protections: protectionsOf(story),
    screed,
    air,
    outside: outsideTrace(story, maxGapMs),
    evaporation:
      start === null
        ? []
        : evaporationPoints(
            air,
            screed.coldest,
            { from: start, until: (life.t0 ?? start) + watchedDays(rules) * dayMs },
            maxGapMs,
          ),
    traffic: trafficEvents(story, life.t0),
    heating,
    heatingDays: heatingDays(heating, story.timeZone),
    thickness: thicknessPoints(story),
    batches: batchesOf(story, air, rules, asOf),
    loads: loadsOf(story, asOf),
  }
}

function watchedDays(rules: EffectiveRules): number {
  return Math.max(2, rules.limits['evaporation.guardHours'].value / 24)
}
