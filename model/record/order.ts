import { type FieldProblem, problemAt } from './check-body.ts'
import type { CheckedEntry, StoryEntry } from './entry.ts'
import type { KindName } from './kinds.ts'
import { instantOf, orderRules } from './order-rules.ts'

/** The kinds of standing entries, of the same subject, that `orderProblems` needs to see for this kind. */
export function orderLooksAt(kind: KindName): readonly KindName[] {
  return orderRules[kind]?.looksAt ?? []
}

/**
 * Returns what an entry contradicts in the order of things: a sheet taken off that was never laid, a test before the
 * bay was finished, a defect closed that nobody found. Only what cannot have happened is a problem; what is merely
 * bad practice is for the alerts.
 * @param standing the entries of the same subject; withdrawn ones and the fact being corrected are left out here
 * @provenance common practice; the order follows from what the words mean
 */
export function orderProblems(entry: CheckedEntry, standing: StoryEntry[]): FieldProblem[] {
  const rule = orderRules[entry.kind]
  if (rule === undefined) return []
  const others = standing.filter(
    (one) =>
      !one.withdrawn &&
      one.subject === entry.subject &&
      !one.versions.some((version) => version.id === entry.corrects) &&
      one.id !== entry.corrects,
  )
  const happening = { at: Date.parse(entry.happenedAt), subject: entry.subject, body: entry.body }
  return rule.find(happening, others).map(({ field, message }) => {
    const seen = field === 'happenedAt' ? { happenedAt: instantOf(happening.at) } : entry.body
    return { ...problemAt(entry.kind, seen, field, message), field }
  })
}
