import type { Limit } from '../rules/limit.ts'
import type { Why } from '../why.ts'

/** A forecast as screens show it: plain JSON. Dates are ISO 8601 UTC; null is "not reached", never a guess. */
export interface ReadyForecast {
  asOf: string
  /** Null when neither contract nor rules have one for the agreed test; `missing` says so then. */
  limit: Limit | null
  p10: string | null
  p50: string | null
  p90: string | null
  notReachedProbability: number
  /** Relative humidity at 40 % depth [%], by time. */
  band: { at: number; p10: number; p50: number; p90: number }[]
  learned: { diffusivityFactor: { p10: number; p50: number; p90: number } } | null
  drivers: { name: string; daysPerUnit: number; unit: string }[]
  /** z is null for a reading that was not used; the note says why. */
  readingsCheck: { id: string; z: number | null; note: string }[]
  /** What was assumed, in sentences: past gaps filled, future climate, material. */
  assumptions: string[]
  why: Why[]
  /** When there is not enough to forecast from: what is missing. Then all dates are null. */
  missing: string[]
}

/** How long a new screed would take to keep its limit, from laying on [days]; null is "not reached", never a guess. */
export interface NewScreedDrying {
  p50Days: number | null
  p90Days: number | null
  /** When there is not enough to forecast from: what is missing. */
  missing: string[]
}
