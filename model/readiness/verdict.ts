import type { MoistureMethod } from '../record/words.ts'
import type { CheckResult, Limit } from '../rules/limit.ts'
import type { Why } from '../why.ts'

export type ReadyVerdict = 'ready' | 'not ready' | 'not proven'

export interface Condition {
  name: string
  state: 'met' | 'not met' | 'unknown'
  because: string
  /** Entries that show it. */
  entries: string[]
}

/** The one test that decides: the worst valid reading by the agreed method. */
export interface GoverningTest {
  entry: string
  point: string
  method: MoistureMethod
  value: number
  unit: string
  at: number
  ageDays: number
  check: CheckResult
}

export interface Readiness {
  verdict: ReadyVerdict
  covering: string
  asOf: number
  governing: { test: GoverningTest | null; limit: Limit } | null
  conditions: Condition[]
  why: Why[]
}

/** A date range that plans, and never releases. Null dates are "not reached", never a guess. */
export interface DateRange {
  p10: string | null
  p50: string | null
  p90: string | null
}
