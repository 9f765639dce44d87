import type { HoldPoint } from '#model/record/people.ts'
import { entriesOf } from '#model/record/story.ts'
import { type CheckResult, type Finding, keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { rounded } from '#model/watch/facts/time.ts'
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

/** What a check found, in one sentence: only what breaks its limit, else only what is missing, else everything. */
export function findingText({ findings }: CheckResult): string {
  const limited = findings.filter(({ limit }) => limit !== null)
  const broken = limited.filter(
    ({ value, limit }) => typeof value === 'number' && limit !== null && !keepsLimit(value, limit),
  )
  const missing = limited.filter(({ value }) => value === null)
  const said = [broken, missing, limited].find((list) => list.length > 0) ?? []
  return said.length === 0 ? 'nothing was measured' : said.map(oneText).join('; ')
}

function oneText({ what, value, limit }: Finding): string {
  const shown = value === null ? 'not recorded' : typeof value === 'number' ? rounded(value, 2) : value
  return limit === null ? `${what}: ${shown}` : `${what}: ${shown} (${limitText(limit)})`
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
