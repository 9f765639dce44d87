import type { KindName } from '#model/record/kinds.ts'
import type { Provenance } from '#model/rules/limit.ts'
import type { Alert } from '#model/watch/alert.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'

export type RequirementState = 'met' | 'not met' | 'not known' | 'does not apply'

/** What a requirement finds on one bay. */
export interface Finding {
  state: RequirementState
  /** Not known because its time has not come, and not because somebody left something out. */
  notYet: boolean
  /** In words, with the numbers that decide. */
  because: string
  /** Entries that show it. */
  entries: string[]
}

/** What is read of a bay before any requirement looks at it. */
export interface AuditFacts {
  facts: BayFacts
  alerts: readonly Alert[]
}

/** One thing that the record of a bay must hold before the bay is complete. */
export interface Requirement {
  id: RequirementId
  /** One or two words, for the head of a column. */
  title: string
  /** What must be so, as a sentence. */
  asks: string
  /** What to do while it is not so. */
  whatToDo: string
  /** The kind of entry that closes the gap, when one does. */
  record: KindName | null
  /**
   * A non-conformance that names it and that somebody else closed answers it. A moisture test cannot be answered away,
   * and neither can what stands open.
   */
  mayBeAnswered: boolean
  source: string
  provenance: Provenance
  find: (audit: AuditFacts) => Finding
}

export const requirementIds = [
  'C1',
  'C2',
  'C3',
  'C4',
  'C5',
  'C6',
  'C7',
  'C8',
  'C9',
  'C10',
  'C11',
  'C12',
  'C13',
  'C14',
  'C15',
  'C16',
] as const
export type RequirementId = (typeof requirementIds)[number]

type Make = (because: string, entries?: readonly string[]) => Finding

const finding =
  (state: RequirementState, notYet = false): Make =>
  (because, entries = []) => ({ state, notYet, because, entries: [...new Set(entries)] })

export const met = finding('met')
export const notMet = finding('not met')
export const notKnown = finding('not known')
/** Its time has not come. Counts as not proven, like anything else that nobody knows. */
export const notYet = finding('not known', true)
export const doesNotApply = finding('does not apply')

export const common = { source: 'Site practice of screed work', provenance: 'common practice' } as const
export const judgement = { source: 'Bayledger default', provenance: 'our judgement' } as const

/** What every requirement about a laid bay says before it is laid; null once it is. */
export function beforeLaying({ life }: BayFacts): Finding | null {
  if (life.startedAt === null) return notYet('The bay is not laid yet.')
  if (life.t0From !== 'finish') return notYet('Nobody has recorded yet that the bay is finished.')
  return null
}

/** "1 reading", "4 readings". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}
