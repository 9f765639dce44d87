import { TZDate } from '@date-fns/tz'
import { dayMs, hourMs } from '#model/time.ts'

export { dayMs, hourMs, minuteMs } from '#model/time.ts'

export const hoursBetween = (from: number, until: number): number => (until - from) / hourMs
export const daysBetween = (from: number, until: number): number => (until - from) / dayMs

/** The instant at which the site's clock shows `hour` o'clock on the day of `at`, moved by whole calendar days. */
export function siteClock(at: number, timeZone: string, hour: number, plusDays = 0): number {
  const day = new TZDate(at, timeZone)
  return new TZDate(day.getFullYear(), day.getMonth(), day.getDate() + plusDays, hour, timeZone).getTime()
}

/** Midnight at which the site's day of `at` began. */
export function siteDayStart(at: number, timeZone: string): number {
  return siteClock(at, timeZone, 0)
}

/** The instant of an ISO text, or null when it is missing or lies after `asOf`: the future is not known. */
export function instantBy(text: string | undefined, asOf: number): number | null {
  if (text === undefined) return null
  const at = Date.parse(text)
  return Number.isFinite(at) && at <= asOf ? at : null
}

/** A value as it should be read: no float dust. */
export function rounded(value: number, digits = 1): number {
  const scale = 10 ** digits
  return Math.round(value * scale) / scale
}
