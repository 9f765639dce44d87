import { holdChainOf, linkText, standsAgainstRelease } from '#model/hold/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { BayId } from '#model/record/ids.ts'
import { callError } from './call-errors.ts'
import type { Services } from './services.ts'

/**
 * Refuses to accept a bay for covering while a chosen hold point before it has not been let go. What was let go counts as
 * of the moment of the acceptance; an entry that is written already is written.
 * @throws NOT_ALLOWED with every point that stands against it; UnknownId when there is no such bay
 */
export function requireHoldPoints({ watch }: Services, entries: readonly CheckedEntry[]): void {
  for (const entry of entries) {
    if (entry.kind !== 'bay-decided' || entry.body.decision !== 'accepted') continue
    const { story, rules } = watch.now(entry.subject as BayId)
    if (story.entries.some(({ versions }) => versions.some(({ id }) => id === entry.id))) continue
    const against = standsAgainstRelease(holdChainOf(story, Date.parse(entry.happenedAt), rules))
    if (against.length === 0) continue
    const points = against.map(linkText).join(', ')
    const detail = `Bay ${story.bay.body.name} cannot be accepted yet. Hold points before it: ${points}. Let a named person release or waive each of them first, or do not accept the bay.`
    throw callError('NOT_ALLOWED', { detail }, detail)
  }
}
