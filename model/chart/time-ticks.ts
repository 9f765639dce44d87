import { TZDate } from '@date-fns/tz'
import { addDays, addMonths, format, startOfDay, startOfMonth, startOfWeek } from 'date-fns'
import { dayMs, hourMs } from '#model/time.ts'

export interface TimeTick {
  at: number
  label: string
}

const hourSteps = [1, 3, 6, 12]
const daySteps = [1, 2]
const weekSteps = [1, 2, 4]
const monthSteps = [1, 3, 6, 12]

/**
 * Returns the marks of a time axis at round moments of the site's clock and calendar: whole hours, midnights, Mondays or
 * firsts of a month, whichever is the finest that leaves at most `most` of them.
 */
export function timeTicks(from: number, until: number, zone: string, most: number): TimeTick[] {
  const span = until - from
  if (!(span > 0) || most < 1) return []
  const hours = hourSteps.find((step) => span / (step * hourMs) <= most)
  if (hours !== undefined) return hourTicks(from, until, zone, hours)
  const days = daySteps.find((step) => span / (step * dayMs) <= most)
  if (days !== undefined)
    return walk(startOfDay(new TZDate(from, zone)), (day) => addDays(day, days), dayLabel)
  const weeks = weekSteps.find((step) => span / (7 * step * dayMs) <= most)
  if (weeks !== undefined) {
    const monday = startOfWeek(new TZDate(from, zone), { weekStartsOn: 1 })
    return walk(monday, (day) => addDays(day, 7 * weeks), dayLabel)
  }
  const months =
    monthSteps.find((step) => span / (step * 30.4 * dayMs) <= most) ?? Math.ceil(span / most / (30 * dayMs))
  return walk(startOfMonth(new TZDate(from, zone)), (day) => addMonths(day, months), monthLabel)

  function walk(start: Date, next: (day: Date) => Date, label: (day: Date) => string): TimeTick[] {
    const ticks: TimeTick[] = []
    for (let day = start; day.getTime() <= until; day = next(day)) {
      if (day.getTime() >= from) ticks.push({ at: day.getTime(), label: label(day) })
    }
    return ticks
  }
}

/** Hours of the site's clock; the hour that a clock change skips has no mark, the one it repeats has one. */
function hourTicks(from: number, until: number, zone: string, step: number): TimeTick[] {
  const ticks: TimeTick[] = []
  for (let day = startOfDay(new TZDate(from, zone)); day.getTime() <= until; day = addDays(day, 1)) {
    for (let hour = 0; hour < 24; hour += step) {
      const moment = new TZDate(day.getFullYear(), day.getMonth(), day.getDate(), hour, zone)
      const at = moment.getTime()
      if (moment.getHours() !== hour || at < from || at > until) continue
      ticks.push({ at, label: hour === 0 ? dayLabel(moment) : format(moment, 'HH:mm') })
    }
  }
  return ticks
}

const dayLabel = (day: Date) => format(day, 'EEE d MMM')
const monthLabel = (day: Date) => format(day, 'MMM yyyy')
