import type { BayId } from '../../record/ids.ts'
import type { Provenance } from '../../rules/limit.ts'
import type { Why } from '../../why.ts'
import type { AirState } from '../humidity-ratio.ts'

/** What can be done with a room in which screed dries. */
export const wayIds = [
  'wait',
  'ventilate',
  'heat',
  'heat and ventilate',
  'dehumidify',
  'heat and dehumidify',
  'floor heating',
] as const
export type WayId = (typeof wayIds)[number]

/** The room and what is to be done with it, as a person typed it. Null: not typed, taken from the record or not known. */
export interface RoomPlan {
  /** Clear height, so that air changes become cubic metres [m]. */
  heightM: number
  outdoor: AirState | null
  /** With windows and doors shut [1/h]; null: worked out from what the room was like, or assumed. */
  shutAirChangesPerH: number | null
  /** While ventilating [1/h]. */
  airChangesPerH: number
  heatToC: number
  dryToRhPercent: number
  /** Mean temperature of a heated screed [°C]. */
  heatedScreedC: number
}

/** A fact about the room and where it was taken from. */
export interface Known<T> {
  value: T
  from: 'typed' | 'record' | 'worked out' | 'assumed'
  /** In words: "mean of 336 readings, 12 to 25 Nov". */
  because: string
}

/** The room that the bays stand in, as far as it is known. */
export interface RoomFacts {
  areaM2: number
  volumeM3: number
  /** As it was in the last days, or as assumed. */
  now: AirState
  outdoor: Known<AirState> | null
  shutAirChangesPerH: Known<number>
}

export interface WayCaution {
  says: string
  source: string
  provenance: Provenance
  /** It must not be done, or not yet; otherwise a care to take. */
  stops: boolean
}

/** The water that the bays give to the air of the room, from now on. */
export interface WayWater {
  /** In the first 24 hours [kg]. */
  firstDayKg: number
  /** Mean of the first seven days, which the humidity of the room is worked out with [kg/day]. */
  firstWeekKgPerDay: number
  /** To order equipment by: see `sizingOf` [kg/day]. */
  sizingKgPerDay: number
  /** Until the likely date (the cautious one when that may be past), or over 90 days where there is none [kg/day]. */
  meanKgPerDay: number
  totalKg: number
  /** Days that the mean is over. */
  days: number
  /** Brought in (or, below 0, carried off) by the air that leaks in [kg/day]; null when outdoor air is not known. */
  leakKgPerDay: number | null
  why: { firstDay: Why; sizing: Why; mean: Why }
}

/** When the limit is kept. Null: not reached within two years. */
export interface WayDates {
  p10: string | null
  p50: string | null
  p90: string | null
  notReachedProbability: number
}

export interface WayFound extends WayDates {
  way: WayId
  /** When the new air of the room begins: now, or the end of curing. */
  from: string
  room: Required<AirState> & { screedC: number }
  /** Air of the room changed by outdoor air [1/h]; null where that is not known. */
  airChangesPerH: number | null
  whyRoom: Why | null
  /** Days that the likely date comes earlier than by waiting; null when either has none. */
  daysGained: number | null
  water: WayWater
  bays: ({ bay: BayId } & WayDates)[]
  /** The bay that is dry last: it gives the dates. */
  slowest: BayId
  cautions: WayCaution[]
  why: Why[]
}

/** A way that cannot be worked out, with what is missing by name. */
export interface WayLacking {
  way: WayId
  lacks: string[]
}

export interface WaysFound {
  asOf: string
  room: RoomFacts | null
  ways: (WayFound | WayLacking)[]
  /** Bays that nothing could be worked out for, with what is missing. */
  without: { bay: BayId; missing: string[] }[]
  assumptions: string[]
}

export const isFound = (way: WayFound | WayLacking): way is WayFound => !('lacks' in way)
