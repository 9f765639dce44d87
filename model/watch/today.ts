import type { BayId } from '../record/ids.ts'
import type { KindName } from '../record/kinds.ts'
import type { Alert } from './alert.ts'

/** Who may walk where, and from when the next freedom comes. `not known` when the temperatures do not tell. */
export interface TrafficPermission {
  now: 'nothing' | 'foot' | 'boards' | 'free' | 'not known'
  next: { what: 'foot' | 'boards' | 'free'; at: number | null } | null
  because: string
}

/** What falls due for a bay: sheets, readings, tests, boards. */
export interface DueAct {
  what: string
  at: number
  overdue: boolean
  because: string
  /** The kind of entry that records it, and what that is called. */
  record: KindName
  recordTitle: string
}

export interface LiveBatch {
  entry: string
  number: number
  minutesLeft: number
  of: number
  because: string
}

export interface PourAdvice {
  verdict: 'go' | 'go with protection' | 'no-go' | 'not known'
  because: string
}

/** One line of Today: what a bay needs next, when and why. */
export interface TodayLine {
  bay: BayId
  bayName: string
  floorName: string
  zoneName: string
  headline: string
  severity: Alert['severity'] | null
  dayOfLife: number | null
  due: DueAct[]
  alerts: Alert[]
  traffic: TrafficPermission | null
  batches: LiveBatch[]
  pour: PourAdvice | null
  /** What is not yet written down today. */
  gaps: string[]
}
