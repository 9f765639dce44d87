import { hourMs } from '#model/time.ts'
import { requireInstant, requireNumber, requireOrdered } from '../errors.ts'

/** A temperature measured in the screed. */
export interface TemperatureReading {
  /** ISO instant with offset, or epoch milliseconds. */
  at: string | number
  /** −40 to 70 [°C]. */
  tempC: number
}

/** The time between two readings, with the temperature taken as running straight from one to the other. */
export interface Interval {
  from: number
  until: number
  startC: number
  endC: number
  hours: number
  /** False when the readings are too far apart to say what happened between them. */
  known: boolean
}

export const defaultMaxGapHours = 3

/**
 * Returns the intervals of a series; an interval longer than `maxGapHours` is unknown and is never bridged.
 * Two readings at the same instant are a step. Fewer than two readings have no interval: nothing is known.
 *
 * @throws InputError when a reading is not usable or the times step back.
 */
export function intervalsOf(
  series: readonly TemperatureReading[],
  maxGapHours: number = defaultMaxGapHours,
): Interval[] {
  if (maxGapHours !== Number.POSITIVE_INFINITY) requireNumber('maxGapHours', maxGapHours, 0.01, 8784, 'h')
  const at = series.map((reading, i) => requireInstant(`series[${i}].at`, reading.at))
  requireOrdered('series', at)
  for (const [i, { tempC }] of series.entries()) requireNumber(`series[${i}].tempC`, tempC, -40, 70, '°C')
  return at.slice(1).map((until, i) => {
    const from = at[i]!
    const hours = (until - from) / hourMs
    return {
      from,
      until,
      startC: series[i]!.tempC,
      endC: series[i + 1]!.tempC,
      hours,
      known: hours <= maxGapHours,
    }
  })
}

/** The hours of the intervals that nobody measured. */
export function unknownHours(intervals: readonly Interval[]): number {
  return intervals.reduce((sum, { known, hours }) => (known ? sum : sum + hours), 0)
}

/** The instant inside an interval at which a running total reaches `target`, the gain being spread evenly over it. */
export function instantReached(
  interval: Interval,
  totalBefore: number,
  gain: number,
  target: number,
): number {
  if (gain <= 0 || target <= totalBefore) return interval.from
  const share = Math.min(1, (target - totalBefore) / gain)
  return interval.from + share * (interval.until - interval.from)
}
