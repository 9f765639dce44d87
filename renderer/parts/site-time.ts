import { TZDate } from '@date-fns/tz'
import { format } from 'date-fns'

/**
 * Times as people on site say them. Every function takes the site's time zone: a record read in another country
 * still shows the clock of the site.
 */

/** `Tue 24 Nov 07:15`; with the year when it is not the year of `now`. */
export function momentText(at: number, zone: string, now?: number): string {
  return format(new TZDate(at, zone), withYear(at, zone, now) ? 'EEE d MMM yyyy HH:mm' : 'EEE d MMM HH:mm')
}

/** `Tue 24 Nov`. */
export function dayText(at: number, zone: string, now?: number): string {
  return format(new TZDate(at, zone), withYear(at, zone, now) ? 'EEE d MMM yyyy' : 'EEE d MMM')
}

/** `07:15`. */
export function clockText(at: number, zone: string): string {
  return format(new TZDate(at, zone), 'HH:mm')
}

/** `2026-11-24`, the site's calendar day. */
export function siteDay(at: number, zone: string): string {
  return format(new TZDate(at, zone), 'yyyy-MM-dd')
}

/** "Tue 24 Nov 2026" of a calendar day such as `2026-11-24`, which has no clock and no zone. */
export function calendarDayText(day: string): string {
  const at = Date.parse(`${day}T12:00:00Z`)
  return Number.isFinite(at) ? format(new TZDate(at, 'UTC'), 'EEE d MMM yyyy') : day
}

/**
 * The sentence with every instant and calendar day in it, such as `2026-10-12T03:52:33.678Z`, as people on site say
 * them. The model writes both by the calendar alone: it knows no site.
 */
export function saidOnSite(sentence: string, zone: string): string {
  return sentence
    .replace(/\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?Z/g, (instant) =>
      format(new TZDate(Date.parse(instant), zone), 'EEE d MMM yyyy HH:mm'),
    )
    .replace(/\b\d{4}-\d\d-\d\d\b/g, calendarDayText)
}

/** The instant with the site's offset, as the record wants it: `2026-11-24T07:15:00+00:00`. */
export function siteIso(at: number, zone: string): string {
  return format(new TZDate(Math.floor(at / 1000) * 1000, zone), "yyyy-MM-dd'T'HH:mm:ssxxx")
}

/** The same to the millisecond, where the instant has any: what is written again must not move. */
export function exactIso(at: number, zone: string): string {
  return at % 1000 === 0 ? siteIso(at, zone) : format(new TZDate(at, zone), "yyyy-MM-dd'T'HH:mm:ss.SSSxxx")
}

export type WallReading =
  | { kind: 'at'; at: number }
  /** The clock change skips this hour: no clock on site ever showed it. */
  | { kind: 'skipped' }
  /** The clock change repeats this hour: it happened at `at` and an hour later again. */
  | { kind: 'twice'; at: number; again: number }

/** Returns the instant at which a clock on site showed that day and time. */
export function instantFromWall(day: string, clock: string, zone: string): WallReading | null {
  const [, year, month, date] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(day) ?? []
  const [, hour, minute] = /^(\d\d):(\d\d)$/.exec(clock) ?? []
  if (year === undefined || hour === undefined) return null
  const [y, m, d, h, min] = [year, month, date, hour, minute].map(Number) as [
    number,
    number,
    number,
    number,
    number,
  ]
  if (m < 1 || m > 12 || d < 1 || d > new Date(Date.UTC(y, m, 0)).getUTCDate()) return null
  if (h > 23 || min > 59) return null
  const nominal = Date.UTC(y, m - 1, d, h, min)
  const shown = (at: number) => `${siteDay(at, zone)} ${clockText(at, zone)}`
  const offsets = new Set([-24, 0, 24].map((hours) => offsetMs(nominal + hours * 3_600_000, zone)))
  const hits = [...offsets]
    .map((offset) => nominal - offset)
    .filter((at) => shown(at) === `${day} ${clock}`)
    .sort((a, b) => a - b)
  const [first, second] = hits
  if (first === undefined) return { kind: 'skipped' }
  return second === undefined ? { kind: 'at', at: first } : { kind: 'twice', at: first, again: second }
}

/**
 * The first and the last millisecond of a day on site, which has 23 or 25 hours where the clocks change; null while no
 * whole day is typed.
 */
export function dayOnSite(day: string, zone: string): { from: number; to: number } | null {
  const from = startOfDay(day, zone)
  const next = new Date(Date.parse(`${day}T12:00:00Z`) + 24 * 3_600_000)
  const end = from === null ? null : startOfDay(next.toISOString().slice(0, 10), zone)
  return from === null || end === null ? null : { from, to: end - 1 }
}

/** Where midnight is skipped by a clock change, the day begins an hour later. */
function startOfDay(day: string, zone: string): number | null {
  for (const clock of ['00:00', '01:00']) {
    const wall = instantFromWall(day, clock, zone)
    if (wall !== null && wall.kind !== 'skipped') return wall.at
  }
  return null
}

/** Reads a time as people type it: `7:15`, `715`, `07.15`, `7`. Returns `07:15`, or null. */
export function clockFromTyped(typed: string): string | null {
  const text = typed.trim()
  const [, hour, minute = '00'] =
    /^(\d{1,2})(?:[:.h ](\d{2}))?$/.exec(text) ?? /^(\d{1,2})(\d{2})$/.exec(text) ?? []
  if (hour === undefined || Number(hour) > 23 || Number(minute) > 59) return null
  return `${hour.padStart(2, '0')}:${minute}`
}

/** "in 3 h", "20 min ago", "2 days ago": how far `at` is from `now`. */
export function agoText(at: number, now: number): string {
  const minutes = Math.round((at - now) / 60_000)
  const size = Math.abs(minutes)
  if (size < 1) return 'now'
  const text =
    size < 90
      ? `${size} min`
      : size < 36 * 60
        ? `${Math.round(size / 60)} h`
        : daysText(Math.round(size / 1440))
  return minutes < 0 ? `${text} ago` : `in ${text}`
}

/** "Today 07:15", "Tomorrow 07:15", "Yesterday 16:00", else the day. */
export function nearText(at: number, now: number, zone: string): string {
  const day = siteDay(at, zone)
  const clock = clockText(at, zone)
  if (day === siteDay(now, zone)) return `Today ${clock}`
  if (day === siteDay(now + 86_400_000, zone)) return `Tomorrow ${clock}`
  if (day === siteDay(now - 86_400_000, zone)) return `Yesterday ${clock}`
  return momentText(at, zone, now)
}

export function daysText(days: number): string {
  return days === 1 ? '1 day' : `${days} days`
}

function withYear(at: number, zone: string, now: number | undefined): boolean {
  return now !== undefined && siteDay(at, zone).slice(0, 4) !== siteDay(now, zone).slice(0, 4)
}

function offsetMs(at: number, zone: string): number {
  return -new TZDate(at, zone).getTimezoneOffset() * 60_000
}
