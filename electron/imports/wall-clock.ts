import type { LoggerReading } from '#model/contract/logger-file.ts'

export type DateOrder = LoggerReading['dateOrder']

/** A date and time as a logger wrote it. `ms` is the wall clock read as if it were UTC, unless `fixed`: then it is UTC. */
export interface WallClock {
  ms: number
  fixed: boolean
}

const yearFirst = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[T ,]+(\S.*))?$/
const yearLast = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?:[T ,]+(\S.*))?$/
const monthNamed = /^(\d{1,2})[-/. ]+(\p{L}{3,10})\.?[-/. ,]+(\d{4}|\d{2})(?:[T ,]+(\S.*))?$/u
const clock = /^(\d{1,2})[:.](\d{2})(?:[:.](\d{2})(?:[.,](\d{1,9}))?)?\s*([ap])?(?:\.?m\.?)?$/i
const offset = /\s*(?:(Z)|([+-])(\d{2}):?(\d{2})?)$/i

const monthNames: Record<string, number> = Object.fromEntries(
  [
    ['jan', 'janv', 'janvier', 'januar', 'january', 'jän', 'jänner'],
    ['feb', 'febr', 'fev', 'fevr', 'fevrier', 'februar', 'february'],
    ['mar', 'mars', 'mrz', 'mär', 'märz', 'marz', 'march'],
    ['apr', 'avr', 'avril', 'april'],
    ['may', 'mai'],
    ['jun', 'juin', 'juni', 'june'],
    ['jul', 'juil', 'juillet', 'juli', 'july'],
    ['aug', 'aou', 'aout', 'august'],
    ['sep', 'sept', 'septembre', 'september'],
    ['oct', 'okt', 'octobre', 'oktober', 'october'],
    ['nov', 'novembre', 'november'],
    ['dec', 'dez', 'decembre', 'dezember', 'december'],
  ].flatMap((names, month) => names.map((name) => [withoutAccents(name), month + 1])),
)

/** "Février" → "fevrier". */
export function withoutAccents(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
}

const MINUTE_MS = 60_000
const DAY_MS = 86_400_000

/**
 * Returns the date and time that a cell spells in the given order, or null when it spells none.
 * A two-digit year is of this century; 24:00 is the midnight that ends the day; a date alone is its first minute.
 */
export function wallClockOf(cell: string, order: DateOrder): WallClock | null {
  const text = cell.trim()
  if (order === 'unix seconds' || order === 'unix milliseconds') return unixTime(text, order)
  const parts = dateParts(text, order)
  if (parts === null) return null
  const day = dayMs(parts.year, parts.month, parts.day)
  if (day === null) return null
  if (parts.rest === undefined) return { ms: day, fixed: false }
  const time = timeOf(parts.rest)
  return time === null ? null : { ms: day + time.ms, fixed: time.fixed }
}

/** Returns the time of day [ms] that a cell spells, with a stated offset taken off, or null. */
export function timeOf(cell: string): WallClock | null {
  const text = cell.trim()
  const stated = offset.exec(text)
  // "10:15-0100" has an offset; "10.15" and "10:15" have none, and a bare "10-01" is no time.
  const bare = stated === null ? text : text.slice(0, stated.index)
  const match = clock.exec(bare)
  if (match === null) return null
  let hours = Number(match[1])
  const minutes = Number(match[2])
  const seconds = Number(match[3] ?? 0)
  const half = match[5]?.toLowerCase()
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return null
    hours = (hours % 12) + (half === 'p' ? 12 : 0)
  }
  const endOfDay = hours === 24 && minutes === 0 && seconds === 0
  if ((hours > 23 && !endOfDay) || minutes > 59 || seconds > 59) return null
  const fraction = match[4] === undefined ? 0 : Math.trunc(Number(`0.${match[4]}`) * 1000)
  const ms = (hours * 60 + minutes) * MINUTE_MS + seconds * 1000 + fraction
  return { ms: ms - offsetMs(stated), fixed: stated !== null }
}

function offsetMs(stated: RegExpExecArray | null): number {
  if (stated === null || stated[1] !== undefined) return 0
  const minutes = Number(stated[3]) * 60 + Number(stated[4] ?? 0)
  return (stated[2] === '-' ? -minutes : minutes) * MINUTE_MS
}

interface DateParts {
  year: number
  month: number
  day: number
  rest: string | undefined
}

function dateParts(text: string, order: DateOrder): DateParts | null {
  if (order === 'iso') {
    const match = yearFirst.exec(text)
    if (match === null) return null
    return { year: Number(match[1]), month: Number(match[3]), day: Number(match[4]), rest: match[5] }
  }
  const match = yearLast.exec(text)
  if (match !== null) {
    const [first, second] = [Number(match[1]), Number(match[3])]
    const [day, month] = order === 'day first' ? [first, second] : [second, first]
    return { year: fullYear(match[4]!), month, day, rest: match[5] }
  }
  const named = monthNamed.exec(text)
  const month = named === null ? undefined : monthNames[withoutAccents(named[2]!)]
  if (named === null || month === undefined || order !== 'day first') return null
  return { year: fullYear(named[3]!), month, day: Number(named[1]), rest: named[4] }
}

function fullYear(text: string): number {
  return text.length === 2 ? 2000 + Number(text) : Number(text)
}

function dayMs(year: number, month: number, day: number): number | null {
  if (year < 1990 || year > 2199 || month < 1 || month > 12 || day < 1) return null
  const ms = Date.UTC(year, month - 1, day)
  return new Date(ms).getUTCDate() === day ? ms : null
}

/** Unix times of 1990 to 2199, so that a row counter is not taken for one. */
function unixTime(text: string, order: DateOrder): WallClock | null {
  if (!/^\d{9,13}(?:\.\d+)?$/.test(text)) return null
  const ms = Math.round(Number(text) * (order === 'unix seconds' ? 1000 : 1))
  const inRange = ms >= Date.UTC(1990, 0) && ms < Date.UTC(2200, 0)
  return inRange ? { ms, fixed: true } : null
}

/** Midnight of the day that a date column names, for a time in a column of its own. */
export function dayOf(wall: WallClock): number {
  return Math.floor(wall.ms / DAY_MS) * DAY_MS
}
