/** Lets only so many pieces of work run at once; the others wait for their turn, first come first served. */
export function takingTurns(most: number): <T>(work: () => Promise<T>, signal?: AbortSignal) => Promise<T> {
  let running = 0
  const waiting: (() => void)[] = []
  return async (work, signal) => {
    if (running >= most) await new Promise<void>((resolve) => waiting.push(resolve))
    else running++
    try {
      // Whoever asked may have scrolled past while it waited.
      signal?.throwIfAborted()
      return await work()
    } finally {
      const next = waiting.shift()
      if (next === undefined) running--
      else next()
    }
  }
}
