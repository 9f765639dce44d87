import type { ClockChange, ZoneClock } from './zone-clock.ts'

export interface Placed {
  /** Instants [epoch ms] in the order of the rows; NaN where the wall clock never showed that time. */
  at: Float64Array
  /** What the clock change did, in sentences. */
  clockChanges: string[]
  /** The change that skipped a row's time, by row. */
  skipped: Map<number, ClockChange>
}

interface Twice {
  row: number
  wallMs: number
  first: number
  second: number
}

/**
 * Turns wall clock readings, oldest first, into instants. In the hour that happens twice the order of the rows
 * decides: until the clock steps back it is the first hour, after that the second. When the file holds the hour
 * only once, it is read as the first hour (as the second when the file begins in it) and the sentence says so.
 *
 * @param wallMs wall clock as if it were UTC [ms].
 * @param fixed 1 where the reading is an instant already (a stated offset, a unix time).
 */
export function placeInTime(wallMs: Float64Array, fixed: Float64Array, zone: ZoneClock): Placed {
  const at = new Float64Array(wallMs.length)
  const skipped = new Map<number, ClockChange>()
  const twice = new Map<ClockChange, Twice[]>()
  for (let row = 0; row < wallMs.length; row++) {
    const wall = wallMs[row]!
    if (fixed[row] === 1) {
      at[row] = wall
      continue
    }
    const meaning = zone.meaningOf(wall)
    if (meaning.kind === 'one') at[row] = meaning.at
    else if (meaning.kind === 'skipped') {
      at[row] = Number.NaN
      skipped.set(row, meaning.change)
    } else {
      const { first, second, change } = meaning
      const rows = twice.get(change) ?? []
      rows.push({ row, wallMs: wall, first, second })
      twice.set(change, rows)
      at[row] = first
    }
  }
  const sentences = [...skippedSentences(skipped, zone), ...settleTwice(twice, at, zone)]
  return { at, clockChanges: sentences, skipped }
}

function settleTwice(twice: Map<ClockChange, Twice[]>, at: Float64Array, zone: ZoneClock): string[] {
  return [...twice].map(([change, rows]) => {
    const where = `On ${dayText(change)} the clocks in ${zone.timeZone} went back from ${timeText(change, change.beforeMs)} to ${timeText(change, change.afterMs)}`
    const stepBack = stepBackIn(rows)
    if (stepBack !== null) {
      for (const { row, second } of rows.slice(stepBack)) at[row] = second
      return `${where}: that time happened twice, and its ${rowsText(rows.length)} are placed by their order in the file.`
    }
    const beginsHere = rows[0]!.row === 0
    if (beginsHere) for (const { row, second } of rows) at[row] = second
    return `${where}: that time happened twice, but the file holds it once (${rowsText(rows.length)}). It is read as the ${beginsHere ? 'second' : 'first'} of the two; it may be the other. If the logger’s clock does not change, choose a fixed offset instead.`
  })
}

/** Where the second pass through the hour begins: at the first step back, or at the repeat of an hourly reading. */
function stepBackIn(rows: readonly Twice[]): number | null {
  for (let i = 1; i < rows.length; i++) if (rows[i]!.wallMs < rows[i - 1]!.wallMs) return i
  const hourly = rows.length === 2 && rows[0]!.wallMs === rows[1]!.wallMs
  return hourly ? 1 : null
}

function skippedSentences(skipped: Map<number, ClockChange>, zone: ZoneClock): string[] {
  const counts = new Map<ClockChange, number>()
  for (const change of skipped.values()) counts.set(change, (counts.get(change) ?? 0) + 1)
  return [...counts].map(
    ([change, count]) =>
      `On ${dayText(change)} the clocks in ${zone.timeZone} went forward from ${timeText(change, change.beforeMs)} to ${timeText(change, change.afterMs)}: ${rowsText(count)} ${count === 1 ? 'bears a time that did not exist and is' : 'bear times that did not exist and are'} refused. If the logger’s clock does not change, choose a fixed offset instead.`,
  )
}

/** "2026-03-29 01:00 to 02:00 did not exist in Europe/London": why one row is refused. */
export function skippedReason(change: ClockChange, zone: ZoneClock): string {
  return `This time did not exist in ${zone.timeZone}: on ${dayText(change)} the clocks went from ${timeText(change, change.beforeMs)} to ${timeText(change, change.afterMs)}.`
}

function dayText(change: ClockChange): string {
  return new Date(change.at + change.beforeMs).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  })
}

function timeText(change: ClockChange, offsetMs: number): string {
  return new Date(change.at + offsetMs).toISOString().slice(11, 16)
}

function rowsText(count: number): string {
  return count === 1 ? '1 row' : `${count.toLocaleString('en-GB')} rows`
}
