import type { RunOptions } from '../work/pool.ts'

export interface Progress {
  kind: 'progress'
  done: number
  of: number
}

/**
 * Yields the progress of a piece of work as it goes, then returns what it gives. Who stops listening, or aborts the
 * signal, stops the work.
 */
export async function* withProgress<T>(
  work: (options: RunOptions) => Promise<T>,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, T, void> {
  const left = new AbortController()
  const either = signal === undefined ? left.signal : AbortSignal.any([signal, left.signal])
  // Only the newest progress counts: a slow listener is not sent a backlog.
  let newest: Progress | null = null
  let ended = false
  let ring: (() => void) | null = null
  const onProgress = (done: number, of: number) => {
    newest = { kind: 'progress', done, of }
    ring?.()
  }
  const end = <E>(outcome: E) => {
    ended = true
    ring?.()
    return outcome
  }
  const running = work({ signal: either, onProgress }).then(
    (value) => end({ value }),
    (error: unknown) => end({ error }),
  )
  try {
    while (!ended) {
      if (newest === null) {
        await new Promise<void>((resolve) => {
          ring = resolve
        })
      }
      const progress: Progress | null = newest
      newest = null
      if (progress !== null) yield progress
    }
    const outcome = await running
    if ('error' in outcome) throw outcome.error
    return outcome.value
  } finally {
    left.abort(new DOMException('Nobody is listening any more.', 'AbortError'))
  }
}
