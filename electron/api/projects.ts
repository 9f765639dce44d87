import { projectOutline, projectSummaries } from '#db/index.ts'
import { rankOf, type TodayLine } from '#model/watch/index.ts'
import { calls } from './base.ts'

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
  return { project: input.project, at: input.at ?? new Date(at).toISOString(), lines: lines.sort(byNeed) }
})

/** Worst first, then what falls due first, then by name, so that the list does not jump. */
function byNeed(a: TodayLine, b: TodayLine): number {
  const rank = ({ severity }: TodayLine) => (severity === null ? Number.MAX_SAFE_INTEGER : rankOf(severity))
  const due = (line: TodayLine) => Math.min(Number.MAX_SAFE_INTEGER, ...line.due.map(({ at }) => at))
  return rank(a) - rank(b) || due(a) - due(b) || a.bayName.localeCompare(b.bayName, 'en')
}
