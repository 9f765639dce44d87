import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'

/** A non-conformance with its closure. */
export interface Nonconformance {
  entry: string
  rule: string
  what: string
  raisedBy: string
  raisedAt: number
  owner: string | null
  /** A day such as 2026-11-30; null when nobody set one. */
  dueOn: string | null
  closed: { entry: string; by: string; at: number; cause: string; action: string } | null
  /** Closed by who raised it: nobody else has looked. */
  closedByRaiser: boolean
}

/** Returns the non-conformances of a bay, oldest first. */
export function nonconformancesOf(story: BayStory): Nonconformance[] {
  const closures = entriesOf(story, 'nonconformance-closed')
  return entriesOf(story, 'nonconformance-raised').map((raised) => {
    const closing = closures.find(({ body }) => String(body.raised) === String(raised.id))
    return {
      entry: raised.id,
      rule: raised.body.rule,
      what: raised.body.what,
      raisedBy: raised.person,
      raisedAt: raised.happenedAt,
      owner: raised.body.owner ?? null,
      dueOn: raised.body.dueOn ?? null,
      closed: closing === undefined ? null : closureOf(closing),
      closedByRaiser: closing?.person === raised.person,
    }
  })
}

function closureOf({ id, person, happenedAt, body }: StoryEntryOf<'nonconformance-closed'>) {
  return { entry: id as string, by: person as string, at: happenedAt, cause: body.cause, action: body.action }
}

/** The closed non-conformance that names a requirement, such as "C7" or "C7: edge strip", and answers it; or null. */
export function answerTo(id: string, list: readonly Nonconformance[]): Nonconformance | null {
  const names = new RegExp(`^${id}\\b`, 'i')
  return (
    list.findLast(
      ({ rule, closed, closedByRaiser }) => closed !== null && !closedByRaiser && names.test(rule.trim()),
    ) ?? null
  )
}
