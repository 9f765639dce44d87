import { TZDate } from '@date-fns/tz'
import { addDays, startOfDay } from 'date-fns'

export const siteZone = 'Europe/London'
export const minuteMs = 60_000
export const hourMs = 60 * minuteMs
export const dayMs = 24 * hourMs

/** Turns "70 days ago at 07:15 on the site's clock" into epoch milliseconds. */
export function siteClock(now: number) {
  const today = startOfDay(new TZDate(now, siteZone))
  return (daysAgo: number, clock: string): number => {
    const [hours = 0, minutes = 0] = clock.split(':').map(Number)
    const day = addDays(today, -daysAgo)
    return new TZDate(day.getFullYear(), day.getMonth(), day.getDate(), hours, minutes, siteZone).getTime()
  }
}

export const iso = (at: number) => new Date(at).toISOString()
export const dayOf = (at: number) => {
  const local = new TZDate(at, siteZone)
  return `${local.getFullYear()}-${String(local.getMonth() + 1).padStart(2, '0')}-${String(local.getDate()).padStart(2, '0')}`
}
