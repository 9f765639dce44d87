import { looksLikeDate, looksLikeUnixTime } from './guess-layout.ts'
import { type DateOrder, dayOf, timeOf, wallClockOf } from './wall-clock.ts'

export interface DateGuess {
  dateColumn: number
  timeColumn: number | null
  dateOrder: DateOrder
  /** A sentence for a person to confirm, when the dates alone do not settle it. */
  question: string | null
}

/** Returns which columns bear date and time and in what order they are written, or null when none does. */
export function datesOf(data: readonly string[][], preferMonthFirst: boolean): DateGuess | null {
  const width = data[0]?.length ?? 0
  const columns = Array.from({ length: width }, (_, i) => i)
  const column = (index: number) => data.map((cells) => cells[index]!)
  const mostly = (index: number, test: (cell: string) => boolean) =>
    column(index).filter(test).length >= 0.8 * data.length

  const dateColumn = columns.find((index) => mostly(index, looksLikeDate))
  if (dateColumn === undefined) {
    const unixColumn = columns.find((index) => mostly(index, looksLikeUnixTime))
    if (unixColumn === undefined) return null
    const seconds = mostly(unixColumn, (cell) => wallClockOf(cell, 'unix seconds') !== null)
    return {
      dateColumn: unixColumn,
      timeColumn: null,
      dateOrder: seconds ? 'unix seconds' : 'unix milliseconds',
      question: null,
    }
  }
  const dates = column(dateColumn)
  const timeless = dates.every((cell) => isMidnight(cell))
  const timeColumn = timeless
    ? (columns.find((index) => index > dateColumn && mostly(index, isTimeOfDay)) ?? null)
    : null
  const times = timeColumn === null ? null : column(timeColumn)
  return { dateColumn, timeColumn, ...orderOf(dates, times, preferMonthFirst) }
}

function isMidnight(cell: string): boolean {
  const order = (['iso', 'day first', 'month first'] as const).find((one) => wallClockOf(cell, one) !== null)
  if (order === undefined) return true
  const wall = wallClockOf(cell, order)!
  return !wall.fixed && dayOf(wall) === wall.ms
}

/** With a colon: "20.15" is more often a temperature. */
function isTimeOfDay(cell: string): boolean {
  return cell.includes(':') && timeOf(cell) !== null
}

function orderOf(
  dates: readonly string[],
  times: readonly string[] | null,
  preferMonthFirst: boolean,
): Pick<DateGuess, 'dateOrder' | 'question'> {
  const readable = (order: DateOrder) => dates.filter((cell) => wallClockOf(cell, order) !== null).length
  const [iso, dayFirst, monthFirst] = [readable('iso'), readable('day first'), readable('month first')]
  if (iso >= dayFirst && iso >= monthFirst) return { dateOrder: 'iso', question: null }
  if (dayFirst !== monthFirst) {
    return { dateOrder: dayFirst > monthFirst ? 'day first' : 'month first', question: null }
  }
  const byDay = unevenness(dates, times, 'day first')
  const byMonth = unevenness(dates, times, 'month first')
  // Points between the parts stand for day first (common practice), unless the times speak against it.
  const points = dates.every((cell) => /^\s*\d+\.\d+\./.test(cell))
  if (points && byDay <= byMonth) return { dateOrder: 'day first', question: null }
  const shown = bothWays(dates)
  if (byDay === byMonth) {
    const dateOrder = preferMonthFirst ? 'month first' : 'day first'
    return {
      dateOrder,
      question: `The file does not show whether ${shown}. It is read ${dateOrder} until you choose.`,
    }
  }
  const dateOrder = byDay < byMonth ? 'day first' : 'month first'
  return {
    dateOrder,
    question: `The dates can be read both ways: ${shown}. Read ${dateOrder} the times follow each other evenly, so that is proposed; please confirm.`,
  }
}

/** How far the steps between rows stray from the usual step, in usual steps, all together. */
function unevenness(dates: readonly string[], times: readonly string[] | null, order: DateOrder): number {
  const walls = dates.map((cell, i) => {
    const wall = wallClockOf(cell, order)
    if (wall === null || times === null) return wall?.ms ?? Number.NaN
    const time = timeOf(times[i]!)
    return time === null ? Number.NaN : dayOf(wall) + time.ms
  })
  const steps = walls.slice(1).map((wall, i) => wall - walls[i]!)
  const sorted = steps.map(Math.abs).sort((a, b) => a - b)
  const usual = sorted[Math.floor(sorted.length / 2)] ?? 0
  if (usual === 0) return 0
  const direction = steps.filter((step) => step > 0).length >= steps.length / 2 ? 1 : -1
  return steps.reduce((sum, step) => sum + Math.abs(direction * step - usual) / usual, 0)
}

function bothWays(dates: readonly string[]): string {
  const differing = dates.find((cell) => {
    const [day, month] = [wallClockOf(cell, 'day first'), wallClockOf(cell, 'month first')]
    return day !== null && month !== null && day.ms !== month.ms
  })
  const cell = (differing ?? dates[0]!).trim()
  return `${cell} is ${dayText(cell, 'day first')} or ${dayText(cell, 'month first')}`
}

function dayText(cell: string, order: DateOrder): string {
  const wall = wallClockOf(cell, order)
  if (wall === null) return 'unknown'
  return new Date(wall.ms).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  })
}
