import type { Limit, RuleId } from '#model/rules/index.ts'
import type { Evidence, Severity } from './alert.ts'
import type { BayFacts } from './facts/index.ts'
import { rounded } from './facts/time.ts'

export const families = {
  frost: 'Frost',
  'drying out': 'Drying out',
  mixing: 'Mixing',
  laying: 'Laying',
  joints: 'Joints',
  curing: 'Curing',
  traffic: 'Traffic',
  heating: 'Heating',
  'moisture tests': 'Moisture tests',
  'hold points': 'Hold points',
  record: 'The record',
} as const
export type Family = keyof typeof families

/** What a rule found, before it is given its id, its source and its answer. */
export interface Raised {
  severity: Severity
  nonconformance?: boolean
  since: number
  until: number | null
  /** When it became as severe as it is; an answer given before that does not answer it. `since` when left out. */
  gradedAt?: number
  evidence: Evidence[]
  whatToDo: string
  /** The limit that it broke, when the rule has more than one. */
  limit?: RuleId | Limit
}

/** One entry of the catalogue of alerts. */
export interface AlertRule {
  id: string
  family: Family
  title: string
  /** The limits that decide, the first of them shown; their sources are the source of the alert. */
  limits: readonly RuleId[]
  /** Where the rule comes from when no limit says so. */
  source?: string
  raise: (facts: BayFacts) => Raised[]
}

/** One line of evidence; numbers are shown without float dust. */
export function shows(
  entry: string | null,
  what: string,
  value: number | string,
  unit = '',
  at: number | null = null,
): Evidence {
  return { entry, what, value: typeof value === 'number' ? rounded(value, 2) : value, unit, at }
}

/** "BS 8204-1, 2003+A1:2009 (quoted second-hand)": where a limit comes from and how well it is known. */
export function sourceOf(limit: Limit): string {
  const parts = [limit.source, limit.edition, limit.clause].filter((part) => part !== undefined)
  const reason = limit.reason === undefined ? '' : `: ${limit.reason}`
  return `${parts.join(', ')} (${limit.provenance}${reason})`
}

/** The sources of several limits, each once. */
export function sourcesOf(limits: readonly Limit[]): string {
  return [...new Set(limits.map(sourceOf))].join('; ')
}

const order: readonly Severity[] = ['stop', 'act', 'watch', 'not proven']

/** 0 for the worst. */
export function rankOf(severity: Severity): number {
  return order.indexOf(severity)
}

export function worse(a: Severity, b: Severity): Severity {
  return rankOf(a) <= rankOf(b) ? a : b
}
