import { useEffect, useRef } from 'react'
import type { RoomPlan, WayId, WaysFound } from '#model/drying/what-if/shapes.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Covering } from '#model/record/words.ts'
import { client } from '../../app/client.ts'
import { type LongWork, useLongWork } from '../../app/long-work.ts'

export interface WaysQuestion {
  bays: BayId[]
  covering: Covering | null
  ways: WayId[]
  plan: RoomPlan
}

export interface WaysWork {
  state: LongWork<WaysFound>
  /** The last one that was finished for these bays, also while the next is worked out. */
  last: WaysFound | null
  again: () => void
  stop: () => void
}

/** A box may still be typed in: what is asked for waits this long [ms]. */
const settleMs = 400

/**
 * Sets the ways beside each other, again whenever the question changes or something was written down.
 * @param question null while a box is wrong: what was found before stays.
 */
export function useWays(question: WaysQuestion | null, version: string): WaysWork {
  const { state, start, stop } = useLongWork<WaysFound>()
  const last = useRef<{ about: string; found: WaysFound } | null>(null)
  const about = useRef('')
  const asked = question === null ? null : JSON.stringify(question)
  if (question !== null) about.current = question.bays.join()
  if (state.kind === 'done') last.current = { about: about.current, found: state.result }
  const work = () => {
    if (question === null) return
    const { covering, ...rest } = question
    const input = covering === null ? rest : { ...rest, covering }
    void start(async (signal, progress) => {
      for await (const event of await client.ways.compare(input, { signal })) {
        if (signal.aborted) return null
        if (event.kind === 'done') return event.found
        progress(event.done, event.of)
      }
      return null
    })
  }
  const first = useRef(true)
  // biome-ignore lint/correctness/useExhaustiveDependencies: it starts when the question changes, not when it is drawn again
  useEffect(() => {
    if (asked === null) return
    const wait = first.current ? 0 : settleMs
    first.current = false
    const timer = setTimeout(work, wait)
    return () => {
      clearTimeout(timer)
      stop()
    }
  }, [asked, version])
  return { state, last: last.current?.about === about.current ? last.current.found : null, again: work, stop }
}
