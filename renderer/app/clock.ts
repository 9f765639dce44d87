import { createStore, useStore } from './store.ts'

const store = createStore(Date.now())
let offsetMs = 0

/** Takes over the host's clock, so that "now" is one moment on screen and in the record. */
export function setClockFrom(hostNow: string): void {
  const at = Date.parse(hostNow)
  if (Number.isFinite(at)) offsetMs = at - Date.now()
  store.set(nowMs())
}

export function nowMs(): number {
  return Date.now() + offsetMs
}

let ticking: ReturnType<typeof setInterval> | null = null
let watchers = 0

function subscribe(listener: () => void): () => void {
  watchers += 1
  ticking ??= setInterval(() => store.set(nowMs()), 10_000)
  const leave = store.subscribe(listener)
  return () => {
    leave()
    watchers -= 1
    if (watchers === 0 && ticking !== null) {
      clearInterval(ticking)
      ticking = null
    }
  }
}

const ticked = { ...store, subscribe }

/** Now in epoch milliseconds; moves every ten seconds. */
export function useNow(): number {
  return useStore(ticked)
}
