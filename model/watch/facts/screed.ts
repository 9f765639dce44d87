import { type BayStory, entriesOf } from '#model/record/story.ts'
import { maturityGainedCh } from '#model/strength/index.ts'
import { hoursBetween } from './time.ts'
import { coldestOf, lastIndexBy, type Trace, traceOfColumn, traceOfPoints } from './trace.ts'

const datumC = -10
/** Warmest believable screed; what hours nobody measured can have given at most. */
const warmestC = 30

/** Maturity from the finish on: what the measured hours prove, and how many hours nobody measured. */
export interface Maturity {
  provenCh: number
  unknownHours: number
  /** The most it can be when the unmeasured hours were warm. */
  atMostCh: number
}

export interface ScreedTemperature {
  /** The coldest sensor at each instant. */
  coldest: Trace
  /** True when nobody measured in the screed at all. */
  unmeasured: boolean
  maturityAt: (instant: number) => Maturity
}

/**
 * Returns the temperature in the screed: loggers and typed readings, the coldest at each instant.
 *
 * Maturity counts from the finish `t0`, so that it is that of the part laid last. Hours below 0 °C count as nothing; gaps
 * longer than `maxGapMs` are unknown and prove nothing.
 *
 * @source Nurse 1949, Saul 1951, datum −10 °C (from memory)
 */
export function screedTemperatureOf(story: BayStory, t0: number | null, maxGapMs: number): ScreedTemperature {
  const typed = entriesOf(story, 'screed-temperature-read').map(({ id, happenedAt, body }) => ({
    at: happenedAt,
    value: body.screedC,
    entry: id,
  }))
  const columns = story.series
    .filter(({ quantity }) => quantity === 'screedC')
    .map(({ at, value, entry }) => traceOfColumn(at, value, entry))
  const coldest = coldestOf([...columns, traceOfPoints(typed)], maxGapMs)
  const { at, value } = coldest

  const first = t0 === null ? at.length : lastIndexBy(at, t0) + 1
  const provenCh = new Float64Array(at.length)
  const unknownHours = new Float64Array(at.length)
  const gained = (i: number, from: number, until: number) => {
    const startAt = at[i - 1]!
    const span = at[i]! - startAt
    const slope = (value[i]! - value[i - 1]!) / span
    const startC = value[i - 1]! + slope * (from - startAt)
    const endC = value[i - 1]! + slope * (until - startAt)
    return maturityGainedCh(
      { from, until, startC, endC, hours: hoursBetween(from, until), known: true },
      datumC,
    )
  }
  const joined = (i: number) => i > 0 && i < at.length && at[i]! - at[i - 1]! <= maxGapMs
  for (let i = first; i < at.length; i++) {
    const from = i > first ? at[i - 1]! : (t0 ?? at[i]!)
    const known = joined(i) && at[i]! > at[i - 1]!
    provenCh[i] = (i > first ? provenCh[i - 1]! : 0) + (known ? gained(i, from, at[i]!) : 0)
    const missing = known || at[i]! === from ? 0 : hoursBetween(from, at[i]!)
    unknownHours[i] = (i > first ? unknownHours[i - 1]! : 0) + missing
  }

  const maturityAt = (instant: number): Maturity => {
    if (t0 === null || instant <= t0) return { provenCh: 0, unknownHours: 0, atMostCh: 0 }
    const i = lastIndexBy(at, instant)
    const known = i >= first
    let proven = known ? provenCh[i]! : 0
    let unknown = known ? unknownHours[i]! : 0
    const from = known ? at[i]! : t0
    if (instant > from) {
      if (joined(i + 1)) proven += gained(i + 1, from, instant)
      else unknown += hoursBetween(from, instant)
    }
    return { provenCh: proven, unknownHours: unknown, atMostCh: proven + unknown * (warmestC - datumC) }
  }
  return { coldest, unmeasured: at.length === 0, maturityAt }
}
