import { holdChainOf, linkText, standsAgainstRelease } from '#model/hold/index.ts'
import { ownCheckProblem, type Readiness, readinessOf } from '#model/readiness/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { BayId } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { storyAsOf } from '#model/record/story.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { callError } from './call-errors.ts'
import type { Services } from './services.ts'

/**
 * Refuses to let a bay go for its covering, be it by accepting it or at its last hold point, while a chosen hold point
 * before it is not let go, the bay is not READY, or whoever accepts it has read it too wet themselves. The verdict is worked out here from the record as of the moment of the
 * entry: what the caller says it was shown proves nothing. An entry that is written already is written; a waiver is a
 * signed fact and is not asked.
 * @throws NOT_ALLOWED with everything that stands against it; UnknownId when there is no such bay
 */
export function requireReleasable({ watch }: Services, entries: readonly CheckedEntry[]): void {
  for (const entry of entries) {
    if (!letsGo(entry)) continue
    const { story, rules } = watch.now(entry.subject as BayId)
    if (story.entries.some(({ versions }) => versions.some(({ id }) => id === entry.id))) continue
    const at = Date.parse(entry.happenedAt)
    const { name } = story.bay.body
    const against = standsAgainstRelease(holdChainOf(story, at, rules))
    if (against.length > 0) {
      const points = against.map(linkText).join(', ')
      refuse(
        `Bay ${name} cannot be accepted yet. Hold points before it: ${points}. Let a named person release or waive each of them first, or do not accept the bay.`,
      )
    }
    const covering = (entry.body.covering ?? story.zone.body.covering) as Covering
    const readiness = readinessOf(story, covering, at, rules)
    if (readiness.verdict !== 'ready') refuse(notReady(name, covering, readiness))
    const { ownChecks = [] } = entry.body as Partial<BodyOf<'bay-decided'>>
    const tooWet = ownCheckProblem(factsOf(storyAsOf(story, at), at, rules), covering, ownChecks)
    if (tooWet !== null) refuse(tooWet)
  }
}

function letsGo({ kind, body }: CheckedEntry): boolean {
  if (kind === 'bay-decided') return body.decision === 'accepted'
  return kind === 'hold-point-released' && body.point === 'release' && body.decision === 'released'
}

function notReady(bay: string, covering: Covering, { verdict, conditions }: Readiness): string {
  const failed = conditions.filter(({ state }) => state === 'not met')
  const unknown = conditions.filter(({ state }) => state === 'unknown')
  // What failed is told in full; of what nobody knows the names are enough to go and look.
  const told = failed.length > 0 ? failed : unknown
  const reasons = told.map(({ name, state, because }) => `${name} (${state}): ${because}`)
  if (told !== unknown && unknown.length > 0)
    reasons.push(`Not known: ${unknown.map(({ name }) => name.toLowerCase()).join(', ')}.`)
  return `Bay ${bay} is ${verdict.toUpperCase()} for ${coverings[covering].toLowerCase()} at that time, and only a READY bay is accepted. ${reasons.join(' ')} Record what is missing, refuse the bay, or have the covering ordered by name as a waiver.`
}

function refuse(detail: string): never {
  throw callError('NOT_ALLOWED', { detail }, detail)
}
