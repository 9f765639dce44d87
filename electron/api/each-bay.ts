import { setImmediate as breath } from 'node:timers/promises'
import type { BayId } from '#model/record/ids.ts'

/** Work goes on for so long before other calls have their turn [ms]; with one bay on top it is not felt. */
const sliceMs = 10

/**
 * Works on bays one after another and lets other calls in between: each waits for one bay at most, however many there are.
 * @throws what the work throws; the signal's reason when nobody waits for the answer any more
 */
export async function eachBay<T>(
  bays: readonly { id: BayId }[],
  work: (bay: BayId) => T,
  signal: AbortSignal | undefined,
): Promise<T[]> {
  const made: T[] = []
  let begun = performance.now()
  for (const { id } of bays) {
    if (performance.now() - begun > sliceMs) {
      await breath()
      signal?.throwIfAborted()
      begun = performance.now()
    }
    made.push(work(id))
  }
  return made
}
