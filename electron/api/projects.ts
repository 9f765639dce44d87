import { projectOutline, projectSummaries } from '#db/index.ts'
import * as watch from '#model/watch/index.ts'
import { rankOf } from '#model/watch/rule.ts'
import type { TodayLine } from '#model/watch/today.ts'
import { calls } from './base.ts'

export const list = calls.projects.list.handler(({ context }) => ({
  projects: projectSummaries(context.record.current().read),
}))

export const outline = calls.projects.outline.handler(({ context, input }) => {
  const stored = projectOutline(context.record.current().read, input.project)
  const bays = stored.bays.map((bay) => {
    return { ...bay, state: context.watch.asOf(bay.id, input.asOf).state }
  })
  return { ...stored, bays }
})

export const today = calls.projects.today.handler(({ context, input }) => {
  const { bays } = projectOutline(context.record.current().read, input.project)
  const lines = bays.flatMap((bay) => {
    const { story, rules, asOf } = context.watch.asOf(bay.id, input.at)
    return watch.todayLineOf(story, asOf, rules) ?? []
  })
  const at = input.at ?? new Date(context.clock()).toISOString()
  return { project: input.project, at, lines: lines.sort(byNeed) }
})

/** Worst first, then what falls due first, then by name, so that the list does not jump. */
function byNeed(a: TodayLine, b: TodayLine): number {
  const rank = ({ severity }: TodayLine) => (severity === null ? Number.POSITIVE_INFINITY : rankOf(severity))
  const due = (line: TodayLine) => Math.min(Number.MAX_SAFE_INTEGER, ...line.due.map(({ at }) => at))
  if (rank(a) !== rank(b)) return rank(a) < rank(b) ? -1 : 1
  return due(a) - due(b) || a.bayName.localeCompare(b.bayName)
}
