import type { Limit } from '../rules/limit.ts'

export const severities = {
  stop: 'Stop',
  act: 'Act today',
  watch: 'Watch',
  'not proven': 'Not proven',
} as const
export type Severity = keyof typeof severities

export interface Evidence {
  /** The entry that shows it, when one does; a computed number has none. */
  entry: string | null
  what: string
  value: number | string
  unit: string
  at: number | null
}

/** One thing that needs an act or an answer. A pure function of the bay's story, the rules and "as of". */
export interface Alert {
  /** Stable over recomputation: rule, bay and the instant it began, such as `A03:<bay>:1764039600000`. */
  id: string
  rule: string
  family: string
  title: string
  severity: Severity
  /** It is kept for the record as a non-conformance, beyond today's act. */
  nonconformance: boolean
  since: number
  /** Null while it still stands. */
  until: number | null
  evidence: Evidence[]
  whatToDo: string
  limit: Limit | null
  source: string
  answeredBy: { entry: string; person: string; answer: string; at: number } | null
}
