import type { ReadHandle } from '#db/index.ts'
import { touchedSince } from '#db/queries/touched-since.ts'
import type { ForecastEvent } from '#model/contract/shapes.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import type { BayForecast } from '../work/forecast-bay.ts'
import { calls } from './base.ts'
import { withProgress } from './progress.ts'
import type { RecordHolder } from './record-holder.ts'
import type { Services } from './services.ts'

const HOUR_MS = 3_600_000
const mostKept = 200

/**
 * Forecasts that still hold, by record. One holds until an entry touches its bay or project, or an hour has passed:
 * it stands on a day, and calculating it takes seconds.
 */
const keptOf = new WeakMap<RecordHolder, Map<string, BayForecast>>()

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
  const asOf = input.asOf === undefined ? context.clock() : Date.parse(input.asOf)
  const kept = keptOf.get(context.record) ?? new Map<string, BayForecast>()
  keptOf.set(context.record, kept)
  const moment = input.asOf ?? `hour ${Math.floor(asOf / HOUR_MS)}`
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

/** A bay's own entries touch it, and so do those of its project that belong to no bay. */
function stillHolds(read: ReadHandle, { seq, project }: BayForecast, bay: string): boolean {
  return !touchedSince(read, seq).some(
    (touch) =>
      touch.project === project && (touch.subject === bay || !touch.ofBay || touch.kind === 'bay-planned'),
  )
}
