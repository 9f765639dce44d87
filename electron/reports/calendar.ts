import { tz } from '@date-fns/tz'
import { format } from 'date-fns'
import ical, { ICalEventStatus, ICalEventTransparency } from 'ical-generator'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import type { Reminder } from '#model/watch/index.ts'

/** When a bay may be dry: an estimate with the bay it is for. */
export interface BayForecastDates extends Pick<ReadyForecast, 'p10' | 'p50' | 'p90'> {
  bay: string
  name: string
  place: string
}

export interface CalendarParts {
  project: { name: string; timeZone: string }
  reminders: readonly Reminder[]
  forecasts: readonly BayForecastDates[]
  /** [epoch ms] */
  now: number
}

const minutesPerAct = 15
const neverPermits = 'An estimate for planning. It never permits covering: only a valid test does.'

/**
 * Returns a calendar file of what falls due and of when bays may be dry.
 *
 * Acts are instants in UTC, so that no time zone table can be out of date; forecast days are whole days on the site's
 * calendar, marked tentative and as estimates. An event keeps its UID when the file is made again, so that a calendar moves
 * it instead of doubling it; readings, which recur, have their own moment in it.
 *
 * @source RFC 5545: 3.1 (folding), 3.3.5 form 2 (UTC), 3.3.11 (escaping), 3.8.4.7 (UID)
 * @provenance published
 */
export function calendarText({ project, reminders, forecasts, now }: CalendarParts): string {
  const calendar = ical({
    name: escaped(`${project.name}, what falls due`),
    prodId: { company: 'Bayledger', product: 'What falls due', language: 'EN' },
  })
  const stamp = new Date(now)
  const today = siteDay(stamp.toISOString(), project.timeZone)
  for (const { about, subject, name, place, what, at, because, record } of reminders) {
    const recurs = record === 'air-read'
    calendar.createEvent({
      id: uidOf(subject, what, recurs ? utcText(at) : ''),
      stamp,
      start: new Date(at),
      end: new Date(at + minutesPerAct * 60_000),
      summary: `${about === 'bay' ? `Bay ${name}` : name}: ${what}`,
      description: because,
      ...(place === '' ? {} : { location: place }),
    })
  }
  for (const { bay, name, place, p10, p50, p90 } of forecasts) {
    const day = (date: string | null) => (date === null ? null : siteDay(date, project.timeZone))
    const range = `One chance in ten by ${day(p10) ?? 'no day that was looked at'}, even chances by ${day(p50) ?? 'no day that was looked at'}, nine in ten by ${day(p90) ?? 'no day that was looked at'}.`
    const estimate = (what: string, date: string | null) => {
      const on = day(date)
      // A day that has passed is no day to plan on.
      if (on === null || on < today) return
      const start = new Date(`${on}T00:00:00Z`)
      calendar.createEvent({
        id: uidOf(bay, what, ''),
        stamp,
        allDay: true,
        start,
        end: new Date(start.getTime() + 24 * 3_600_000),
        summary: `Estimate, Bay ${name}: ${what}`,
        description: `${neverPermits} ${range}`,
        location: place,
        status: ICalEventStatus.TENTATIVE,
        transparency: ICalEventTransparency.TRANSPARENT,
      })
    }
    estimate('even chances that it is dry', p50)
    estimate('nine chances in ten that it is dry', p90)
  }
  // The last line ends like every other (3.1); the library leaves that out.
  return `${calendar.toString().trimEnd()}\r\n`
}

/** Text as RFC 5545 3.3.11 wants it; the library does so for events, but not for the name of the calendar. */
function escaped(text: string): string {
  return text.replaceAll(/[\\;,]/g, (sign) => `\\${sign}`).replaceAll(/\r?\n/g, '\\n')
}

function uidOf(subject: string, what: string, moment: string): string {
  const words = what.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')
  return `${[subject, words, moment].filter((part) => part !== '').join('.')}@bayledger.invalid`
}

function utcText(at: number): string {
  return new Date(at).toISOString().replaceAll(/[-:]|\.\d+/g, '')
}

/** "2026-12-19": the day of an instant on the site's calendar. */
function siteDay(date: string, timeZone: string): string {
  return format(new Date(date), 'yyyy-MM-dd', { in: tz(timeZone) })
}
