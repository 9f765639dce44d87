import type { ReadHandle } from '#db/index.ts'
import { touchedSince } from '#db/queries/touched-since.ts'
import type { ForecastEvent } from '#model/contract/shapes.ts'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import type { BayForecast } from '../work/forecast-bay.ts'
import type { Workers } from '../work/pool.ts'
import { calls } from './base.ts'
import { withProgress } from './progress.ts'
import type { Services } from './services.ts'

const HOUR_MS = 3_600_000
const mostKept = 200

/**
 * Forecasts that still hold, by host: its workers live as long as it does, the record of a call only as long as the
 * call. One holds until an entry touches its bay, its project or a bay that teaches it, or an hour has passed: it
 * stands on a day, and calculating it takes seconds.
 */
const keptOf = new WeakMap<Workers, Map<string, BayForecast>>()

interface ForecastQuestion {
  bay: BayId
  covering?: Covering
  asOf?: string
}

export const forecast = calls.bays.forecast.handler(({ context, input, signal }) =>
  forecastOf(context, input, signal),
)

/** The forecast that still holds, or a new one with its progress. */
export async function* forecastOf(
  context: Services,
  input: ForecastQuestion,
  signal: AbortSignal | undefined,
): AsyncGenerator<ForecastEvent, void, void> {
  const { file, read } = context.record.current()
  const { bay, covering } = input
  const asOf = input.asOf === undefined ? presentOf(context, bay) : Date.parse(input.asOf)
  const kept = keptOf.get(context.workers) ?? new Map<string, BayForecast>()
  keptOf.set(context.workers, kept)
  const moment =
    input.asOf === undefined && asOf % HOUR_MS !== 0 ? `hour ${Math.floor(asOf / HOUR_MS)}` : asOf
  const key = [file, bay, covering ?? 'as planned', moment].join('|')

  const known = kept.get(key)
  if (known !== undefined && stillHolds(read, known, bay)) {
    yield { kind: 'done', forecast: known.forecast }
    return
  }
  const question = { recordFile: file, bay, covering, asOf }
  const made = yield* withProgress(
    (options) => context.workers.run('forecast bay', question, options),
    signal,
  )
  kept.delete(key)
  kept.set(key, made)
  const oldest = kept.keys().next().value
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest)
  yield { kind: 'done', forecast: made.forecast }
}

/** The beginning of this hour, on which files stand, unless something of the bay is younger: then the present instant. */
function presentOf({ clock, watch }: Services, bay: BayId): number {
  const now = clock()
  const hour = Math.floor(now / HOUR_MS) * HOUR_MS
  const { entries, series } = watch.now(bay).story
  const isYounger =
    entries.some(({ happenedAt, versions }) => happenedAt > hour || versions.at(-1)!.recordedAt > hour) ||
    series.some(({ at }) => (at.at(-1) ?? 0) > hour)
  return isYounger ? now : hour
}

/** The forecast that still holds, or a new one, waited for. */
export async function awaitForecast(
  context: Services,
  input: ForecastQuestion,
  signal: AbortSignal | undefined,
): Promise<ReadyForecast> {
  for await (const event of forecastOf(context, input, signal)) {
    if (event.kind === 'done') return event.forecast
  }
  throw new Error(`The forecast of ${input.bay} ended without an answer.`)
}

/** Entries that can make a bay a teacher of others, or end it. */
const teaching: ReadonlySet<string> = new Set(['bay-planned', 'batch-mixed', 'moisture-read'])

/**
 * A bay's own entries touch it, and so do those of its project that belong to no bay, those of the bays that taught
 * it, and those by which any other bay may come to teach it.
 */
function stillHolds(read: ReadHandle, { seq, project, teachers }: BayForecast, bay: string): boolean {
  return !touchedSince(read, seq).some(
    (touch) =>
      touch.subject === bay ||
      (touch.project === project && !touch.ofBay) ||
      teachers.includes(touch.subject) ||
      (touch.ofBay && teaching.has(touch.kind)),
  )
}
