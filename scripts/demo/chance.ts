import { type Id, uuidV7From } from '#model/record/ids.ts'

/** A seeded source of chance, so that one seed always tells the same story. */
export interface Chance {
  /** Uniform in [0, 1). */
  next: () => number
  between: (low: number, high: number) => number
  /** Normal with mean 0 and the given standard deviation (Box-Muller). */
  noise: (sd: number) => number
  id: <Thing extends string>(atMs: number) => Id<Thing>
}

/** Returns a seeded source of chance (a 32-bit mixing generator; good enough for a demonstration, not for secrets). */
export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  const between = (low: number, high: number) => low + (high - low) * next()
  const noise = (sd: number) => sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next())
  const id = <Thing extends string>(atMs: number) =>
    uuidV7From<Thing>(
      atMs,
      Uint8Array.from({ length: 10 }, () => Math.floor(next() * 256)),
    )
  return { next, between, noise, id }
}

export const round = (value: number, digits: number) => Number(value.toFixed(digits))
