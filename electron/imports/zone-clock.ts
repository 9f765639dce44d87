import { tzOffset } from '@date-fns/tz'
import { InputError } from '#model/errors.ts'

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const DAY_MS = 24 * HOUR_MS

/** A change of the clocks of a place: from one offset to another at one instant. */
export interface ClockChange {
  at: number
  beforeMs: number
  afterMs: number
}

/** What a wall clock reading means: one instant, two (the hour happened twice) or none (the hour was skipped). */
export type Meaning =
  | { kind: 'one'; at: number }
  | { kind: 'twice'; first: number; second: number; change: ClockChange }
  | { kind: 'skipped'; change: ClockChange }

/** The clocks of a place. */
export interface ZoneClock {
  timeZone: string
  meaningOf: (wallMs: number) => Meaning
}

/**
 * Returns the clocks of a time zone, with the changes of each year looked up once.
 * @param timeZone IANA name such as Europe/London, or a fixed offset such as +01:00.
 * @throws InputError when the zone is not known.
 */
export function zoneClock(timeZone: string): ZoneClock {
  const offsetAt = (at: number) => tzOffset(timeZone, new Date(at)) * MINUTE_MS
  if (!isTimeZone(timeZone)) {
    throw new InputError(
      'reading.timeZone',
      `“${timeZone}” is not a known time zone; use a name such as Europe/London, or UTC, or an offset such as +01:00.`,
    )
  }
  const years = new Map<number, ClockChange[]>()
  const changesOf = (year: number) => {
    let known = years.get(year)
    if (known === undefined) {
      known = changesBetween(offsetAt, Date.UTC(year, 0) - 2 * DAY_MS, Date.UTC(year + 1, 0) + 2 * DAY_MS)
      years.set(year, known)
    }
    return known
  }

  // Rows follow each other: between two changes the offset of the row before still holds.
  let calmFrom = 1
  let calmTo = 0
  let calmOffset = 0
  const meaningOf = (wallMs: number): Meaning => {
    if (wallMs >= calmFrom && wallMs < calmTo) return { kind: 'one', at: wallMs - calmOffset }
    const year = new Date(wallMs).getUTCFullYear()
    const yearStart = Date.UTC(year, 0)
    let from = yearStart - DAY_MS
    let inForce = offsetAt(yearStart - 2 * DAY_MS)
    for (const change of changesOf(year)) {
      const early = change.at + Math.min(change.beforeMs, change.afterMs)
      const late = change.at + Math.max(change.beforeMs, change.afterMs)
      if (wallMs < early) {
        calmFrom = from
        calmTo = early
        calmOffset = change.beforeMs
        return { kind: 'one', at: wallMs - change.beforeMs }
      }
      if (wallMs < late) {
        return change.afterMs > change.beforeMs
          ? { kind: 'skipped', change }
          : { kind: 'twice', first: wallMs - change.beforeMs, second: wallMs - change.afterMs, change }
      }
      from = late
      inForce = change.afterMs
    }
    calmFrom = from
    calmTo = Date.UTC(year + 1, 0) + DAY_MS
    calmOffset = inForce
    return { kind: 'one', at: wallMs - inForce }
  }
  return { timeZone, meaningOf }
}

export function isTimeZone(timeZone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone })
    return true
  } catch (cause) {
    if (cause instanceof RangeError) return false
    throw cause
  }
}

/** Finds where the offset changes, to the minute: day by day, then by halving. */
function changesBetween(offsetAt: (at: number) => number, from: number, to: number): ClockChange[] {
  const changes: ClockChange[] = []
  for (let day = from; day < to; day += DAY_MS) {
    const beforeMs = offsetAt(day)
    const afterMs = offsetAt(day + DAY_MS)
    if (beforeMs === afterMs) continue
    let low = day
    let high = day + DAY_MS
    while (high - low > MINUTE_MS) {
      const middle = low + Math.floor((high - low) / 2 / MINUTE_MS) * MINUTE_MS
      if (offsetAt(middle) === beforeMs) low = middle
      else high = middle
    }
    changes.push({ at: high, beforeMs, afterMs })
  }
  return changes
}
