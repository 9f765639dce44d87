import { useEffect, useRef, useState } from 'react'

export type LongWork<T> =
  | { kind: 'idle' }
  | { kind: 'running'; done: number; of: number }
  | { kind: 'stopped' }
  | { kind: 'failed'; error: unknown }
  | { kind: 'done'; result: T }

type Run<T> = (signal: AbortSignal, progress: (done: number, of: number) => void) => Promise<T | null>

/** Work that takes a while: shows how far it is, can be stopped, and stops when its screen is left. */
export function useLongWork<T>() {
  const [state, setState] = useState<LongWork<T>>({ kind: 'idle' })
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  const start = async (run: Run<T>) => {
    const control = new AbortController()
    running.current = control
    setState({ kind: 'running', done: 0, of: 0 })
    try {
      const result = await run(control.signal, (done, of) => setState({ kind: 'running', done, of }))
      setState(result === null ? { kind: 'stopped' } : { kind: 'done', result })
    } catch (error) {
      // An abort arrives as AbortError over HTTP and as a plain Error over the shell's port: ask the signal.
      setState(control.signal.aborted ? { kind: 'stopped' } : { kind: 'failed', error })
    }
  }
  return { state, start, stop: () => running.current?.abort(), reset: () => setState({ kind: 'idle' }) }
}
