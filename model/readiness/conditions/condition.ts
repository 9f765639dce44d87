import type { HoldPoint } from '#model/record/people.ts'
import { entriesOf } from '#model/record/story.ts'
import type { CheckResult } from '#model/rules/index.ts'
import { limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import type { Condition } from '../verdict.ts'

export const met = (name: string, because: string, entries: readonly string[] = []): Condition => ({
  name,
  state: 'met',
  because,
  entries: [...entries],
})
export const notMet = (name: string, because: string, entries: readonly string[] = []): Condition => ({
  name,
  state: 'not met',
  because,
  entries: [...entries],
})
export const unknown = (name: string, because: string, entries: readonly string[] = []): Condition => ({
  name,
  state: 'unknown',
  because,
  entries: [...entries],
})

/** What a check found, in one sentence: first what breaks its limit, else what is missing, else the closest value. */
export function findingText({ findings }: CheckResult): string {
  const said = findings.flatMap(({ what, value, limit }) => {
    if (limit === null) return []
    const shown =
      value === null ? 'not recorded' : typeof value === 'number' ? Math.round(value * 100) / 100 : value
    return [`${what}: ${shown} (${limitText(limit)})`]
  })
  return said.length === 0 ? 'nothing was measured' : said.join('; ')
}

/**
 * A condition of history or geometry that cannot be made good is met when a named person waived its hold point after the
 * last fact that broke it. What nobody knows cannot be waived, and neither can a moisture limit.
 */
export function waived(facts: BayFacts, condition: Condition, point: HoldPoint, since: number): Condition {
  if (condition.state !== 'not met') return condition
  const last = entriesOf(facts.story, 'hold-point-released').findLast(({ body }) => body.point === point)
  if (last === undefined || last.body.decision !== 'waived' || last.happenedAt < since) return condition
  return {
    ...condition,
    state: 'met',
    because: `Waived at the hold point: “${last.body.saw}”. ${condition.because}`,
    entries: [...condition.entries, last.id],
  }
}
