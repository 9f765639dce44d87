import { projectOutline } from '#db/index.ts'
import { dueIn } from '#model/watch/index.ts'
import { type BayForecastDates, calendarText } from '../reports/calendar.ts'
import { calls } from './base.ts'
import { awaitForecast } from './forecast.ts'
import type { Services } from './services.ts'
import { isDrying, type Watched } from './watched.ts'

/** How far ahead acts are listed [days]; a longer plan changes before it comes. */
const daysAhead = 60

export { fetch, gaps, make } from './report-files.ts'

export const calendar = calls.reports.calendar.handler(async ({ context, input, signal }) => {
  const { project, bays } = projectOutline(context.record.current().read, input.project)
  const watched = bays.map(({ id }) => context.watch.now(id))
  const now = context.clock()
  const { name, timeZone } = project.body
  const reminders = dueIn(
    watched.map(({ story }) => story),
    now,
    daysAhead,
  )
  const drying = watched.filter((bay) => isDrying(bay))
  const forecasts = await Promise.all(drying.map((bay) => datesOf(context, bay, signal)))
  const parts = { project: { name, timeZone }, reminders, forecasts, now }
  const text = calendarText(parts)
  return { text, events: text.split('BEGIN:VEVENT').length - 1 }
})

async function datesOf(
  context: Services,
  { story }: Watched,
  signal: AbortSignal | undefined,
): Promise<BayForecastDates> {
  const { bay, floor, zone } = story
  const about = { bay: bay.id, name: bay.body.name, place: `${floor.body.name}, ${zone.body.name}` }
  const { p10, p50, p90 } = await awaitForecast(context, { bay: bay.id }, signal)
  return { ...about, p10, p50, p90 }
}
