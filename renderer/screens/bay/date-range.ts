import { TZDate } from '@date-fns/tz'
import { format } from 'date-fns'

/** "14–29 Jan", "3 Nov – 10 Dec", "20 Dec – 4 Jan 2027": days on the site's calendar; the year where it is not that of now. */
export function rangeText(from: number, until: number, zone: string, now: number): string {
  const [a, b] = [new TZDate(from, zone), new TZDate(until, zone)]
  if (a.getFullYear() !== b.getFullYear())
    return `${shortDay(from, zone, now)} – ${shortDay(until, zone, now)}`
  if (a.getMonth() !== b.getMonth()) return `${format(a, 'd MMM')} – ${shortDay(until, zone, now)}`
  if (a.getDate() === b.getDate()) return shortDay(until, zone, now)
  return `${format(a, 'd')}–${shortDay(until, zone, now)}`
}

/** "8 Feb", with the year where it is not that of now. */
export function shortDay(at: number, zone: string, now: number): string {
  const day = new TZDate(at, zone)
  return format(day, day.getFullYear() === new TZDate(now, zone).getFullYear() ? 'd MMM' : 'd MMM yyyy')
}
