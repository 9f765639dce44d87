import { setImmediate as breath } from 'node:timers/promises'
import { Notification } from 'electron'
import { projectOutline, projectSummaries } from '#db/index.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { siteClock } from '#model/watch/facts/time.ts'
import { isOpen } from '#model/watch/index.ts'
import type { Services } from './api/services.ts'
import { readSettings } from './data-folder/settings.ts'

const lookEveryMs = 60_000
/** Alerts of all bays are work; so often they are looked at. */
const stopsEveryMs = 5 * 60_000
/** When the crew looks at the list, on the site's clock. */
const readingHours = [7, 15] as const
const mostLines = 5

export interface Reminding {
  /** Looks once; the timer does so every minute. */
  look: () => Promise<void>
  stop: () => void
}

/**
 * Reminds through the desktop: at 07:00 and 15:00 of the site of what falls due until the next of these hours, and when an
 * alert that says stop begins. A notification names bays and acts and nothing else, because it shows on locked screens.
 * What stood already when the program was opened is on Today and is not shouted again. It can be switched off.
 */
export function keepReminding(services: Services): Reminding {
  const { record, clock, folder, log } = services
  let lookedAt = clock()
  let stopsAt = Number.NEGATIVE_INFINITY
  /** Stops that are known; null while nobody has looked, or while it is switched off. */
  let known: Set<string> | null = null

  const look = async () => {
    const [before, now] = [lookedAt, clock()]
    lookedAt = now
    if (record.state().state !== 'open') return
    if (!readSettings(folder.settings).notifications) {
      known = null
      stopsAt = Number.NEGATIVE_INFINITY
      return
    }
    const projects = projectSummaries(record.current().read)
    for (const { id } of projects) await remindOf(services, id, before, now)
    if (now - stopsAt >= stopsEveryMs) {
      stopsAt = now
      known = await tellOfStops(
        services,
        projects.map(({ id }) => id),
        known,
      )
    }
  }

  let running = Promise.resolve()
  const timer = setInterval(() => {
    running = running.then(look).catch((cause: unknown) => void log.keep('reminders', cause))
  }, lookEveryMs)
  timer.unref()
  return { look, stop: () => clearInterval(timer) }
}

/** One notification for each project whose hour came since the last look. */
async function remindOf(
  { record, watch }: Services,
  id: ProjectId,
  before: number,
  now: number,
): Promise<void> {
  const { project, bays } = projectOutline(record.current().read, id)
  const hours = hoursAround(now, project.body.timeZone)
  const came = hours.findLast((at) => at <= now)
  const next = hours.find((at) => at > now)
  if (came === undefined || next === undefined || came <= before) return
  const lines: string[] = []
  for (const bay of bays) {
    await breath()
    const due = watch.now(bay.id).ahead()
    for (const { about, at, what } of due)
      if (about === 'bay' && at < next) lines.push(`Bay ${bay.body.name}: ${what}`)
  }
  if (lines.length === 0) return
  const more = lines.length - mostLines
  const shown = more > 0 ? [...lines.slice(0, mostLines), `and ${more} more`] : lines
  new Notification({ title: 'Falls due', body: shown.join('\n') }).show()
}

/** The reading hours of yesterday, today and tomorrow on the site's clock, in order. */
function hoursAround(now: number, timeZone: string): number[] {
  return [-1, 0, 1].flatMap((day) => readingHours.map((hour) => siteClock(now, timeZone, hour, day)))
}

/** Tells of every open stop that was not known, and returns those that are open now. */
async function tellOfStops(
  { record, watch }: Services,
  projects: readonly ProjectId[],
  known: ReadonlySet<string> | null,
): Promise<Set<string>> {
  const open = new Set<string>()
  for (const id of projects) {
    for (const bay of projectOutline(record.current().read, id).bays) {
      await breath()
      for (const alert of watch.now(bay.id).alerts()) {
        if (alert.severity !== 'stop' || !isOpen(alert)) continue
        open.add(alert.id)
        if (known === null || known.has(alert.id)) continue
        new Notification({ title: `Bay ${bay.body.name}`, body: alert.title }).show()
      }
    }
  }
  return open
}
