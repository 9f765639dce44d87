import { projectOutline, projectSummaries } from '#db/index.ts'
import { siteClock } from '#model/watch/facts/time.ts'
import { instrumentsDue, type Reminder, rankOf, rulesToTune, type TodayLine } from '#model/watch/index.ts'
import { calls } from './base.ts'
import type { Watched } from './watched.ts'

export const list = calls.projects.list.handler(({ context }) => ({
  projects: projectSummaries(context.record.current().read),
}))

export const outline = calls.projects.outline.handler(({ context, input }) => {
  const stored = projectOutline(context.record.current().read, input.project)
  const bays = stored.bays.map((bay) => ({ ...bay, state: context.watch.asOf(bay.id, input.asOf).state() }))
  return { ...stored, bays }
})

export const today = calls.projects.today.handler(({ context, input }) => {
  const { bays } = projectOutline(context.record.current().read, input.project)
  const watched = bays.map((bay) => context.watch.asOf(bay.id, input.at))
  const lines = watched.flatMap((bay) => bay.today() ?? [])
  // Bays are looked at within seconds of each other; the sheet is as old as the oldest of them.
  const at = Math.min(context.clock(), ...watched.map(({ asOf }) => asOf))
  return {
    project: input.project,
    at: input.at ?? new Date(at).toISOString(),
    lines: lines.sort(byNeed),
    ahead: aheadOf(watched, at),
  }
})

export const tuning = calls.projects.tuning.handler(({ context, input }) => {
  const { bays } = projectOutline(context.record.current().read, input.project)
  return { items: rulesToTune(new Map(bays.map(({ id }) => [id, context.watch.now(id).alerts()]))) }
})

/** Tomorrow's acts of the bays, and every instrument that is due or overdue by then. */
function aheadOf(watched: readonly Watched[], at: number): Reminder[] {
  const zone = watched[0]?.story.timeZone
  if (zone === undefined) return []
  const tomorrow = siteClock(at, zone, 0, 1)
  const acts = watched.flatMap((bay) => bay.ahead()).filter((act) => act.at >= tomorrow)
  const stories = watched.map(({ story }) => story)
  return [...acts, ...instrumentsDue(stories, at, 2)].sort((a, b) => a.at - b.at)
}

/** Worst first, then what falls due first, then by name, so that the list does not jump. */
function byNeed(a: TodayLine, b: TodayLine): number {
  const rank = ({ severity }: TodayLine) => (severity === null ? Number.MAX_SAFE_INTEGER : rankOf(severity))
  const due = (line: TodayLine) => Math.min(Number.MAX_SAFE_INTEGER, ...line.due.map(({ at }) => at))
  return rank(a) - rank(b) || due(a) - due(b) || a.bayName.localeCompare(b.bayName, 'en')
}
