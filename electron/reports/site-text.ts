import { TZDate } from '@date-fns/tz'
import { format } from 'date-fns'

/** "Tue 24 Nov 07:15", with the year where it is not that of `now`. */
export function momentText(at: number, zone: string, now?: number): string {
  return format(new TZDate(at, zone), withYear(at, zone, now) ? 'EEE d MMM yyyy HH:mm' : 'EEE d MMM HH:mm')
}

/** "Tue 24 Nov", with the year where it is not that of `now`. */
export function dayText(at: number, zone: string, now?: number): string {
  return format(new TZDate(at, zone), withYear(at, zone, now) ? 'EEE d MMM yyyy' : 'EEE d MMM')
}

/** "Tue 24 Nov 2026 07:15": for a place where nothing else tells the year. */
export function fullMomentText(at: number, zone: string): string {
  return format(new TZDate(at, zone), 'EEE d MMM yyyy HH:mm')
}

/** "Tue 24 Nov 2026" of a calendar day such as `2026-11-24`. */
export function calendarDayText(day: string): string {
  const at = Date.parse(`${day}T12:00:00Z`)
  return Number.isFinite(at) ? format(new TZDate(at, 'UTC'), 'EEE d MMM yyyy') : day
}

/** "2026-11-24T07:15:00+00:00": the clock of the site with its offset. */
export function siteIso(at: number, zone: string): string {
  return format(new TZDate(at, zone), "yyyy-MM-dd'T'HH:mm:ssxxx")
}

/** A number as it is printed: at most so many decimals, a true minus sign; "–" for what is no number. */
export function numberText(value: number, decimals = 2): string {
  if (!Number.isFinite(value)) return '–'
  return formatOf(decimals, Math.abs(value) >= 10_000)
    .format(value)
    .replace('-', '−')
}

/** Making a format costs a hundred times as much as using it, and a file has thousands of numbers. */
const formats = new Map<string, Intl.NumberFormat>()

function formatOf(decimals: number, grouped: boolean): Intl.NumberFormat {
  const key = `${decimals} ${grouped}`
  const known = formats.get(key)
  if (known !== undefined) return known
  const made = new Intl.NumberFormat('en-GB', { maximumFractionDigits: decimals, useGrouping: grouped })
  formats.set(key, made)
  return made
}

/** A text of at most so many characters; a longer one ends in "…". */
export function shortened(text: string, most: number): string {
  const letters = [...text]
  return letters.length <= most
    ? text
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`
}

function withYear(at: number, zone: string, now: number | undefined): boolean {
  return now !== undefined && new TZDate(at, zone).getFullYear() !== new TZDate(now, zone).getFullYear()
}
