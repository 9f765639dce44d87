import { useEffect, useRef } from 'react'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import { client } from '../../app/client.ts'
import { type LongWork, useLongWork } from '../../app/long-work.ts'

export interface ForecastWork {
  state: LongWork<ReadyForecast>
  /** The last one that was finished, also while the next is worked out. */
  last: ReadyForecast | null
  again: () => void
  stop: () => void
}

/**
 * Works out when a bay may be dry, again whenever something new was written down.
 * @param version changes when the record of the bay changes; null while there is nothing to work out.
 */
export function useForecast(
  bay: BayId,
  covering: Covering | undefined,
  version: string | null,
): ForecastWork {
  const { state, start, stop } = useLongWork<ReadyForecast>()
  const last = useRef<{ about: string; forecast: ReadyForecast } | null>(null)
  const about = `${bay} ${covering ?? ''}`
  if (state.kind === 'done') last.current = { about, forecast: state.result }
  const work = () =>
    void start(async (signal, progress) => {
      for await (const event of await client.bays.forecast({ bay, covering }, { signal })) {
        if (signal.aborted) return null
        if (event.kind === 'done') return event.forecast
        progress(event.done, event.of)
      }
      return null
    })
  // biome-ignore lint/correctness/useExhaustiveDependencies: it starts when the question changes, not when it is drawn again
  useEffect(() => {
    if (version === null) return
    work()
    return stop
  }, [bay, covering, version])
  const kept = last.current?.about === about ? last.current.forecast : null
  return { state, last: kept, again: work, stop }
}
