import { requireNumber } from '../errors.ts'
import { type Interval, intervalsOf, type TemperatureReading } from './temperature-series.ts'

export interface Maturity {
  /** What the measured hours prove; unmeasured hours count as nothing [°C·h]. */
  provenCh: number
  unknownHours: number
}

/** Maturity gained in an interval: hours below 0 °C (or below the datum) count as nothing. */
export function maturityGainedCh({ startC, endC, hours }: Interval, datumC: number): number {
  const floorC = Math.max(0, datumC)
  const low = Math.min(startC, endC)
  const high = Math.max(startC, endC)
  if (low >= floorC) return hours * ((low + high) / 2 - datumC)
  if (high < floorC) return 0
  const shareAbove = (high - floorC) / (high - low)
  return hours * shareAbove * ((high + floorC) / 2 - datumC)
}

/**
 * Returns the maturity that the series proves, and the hours of it that nobody measured.
 *
 * @param series temperatures in the screed from the addition of water on.
 * @param datumC datum temperature, −10 by default [°C].
 * @param maxGapHours readings further apart leave the time between unknown [h].
 * @throws InputError when a reading is not usable or times step back.
 */
export function maturityOf(
  series: readonly TemperatureReading[],
  datumC = -10,
  maxGapHours?: number,
): Maturity {
  requireNumber('datumC', datumC, -15, 5, '°C')
  let provenCh = 0
  let unknownHours = 0
  for (const interval of intervalsOf(series, maxGapHours)) {
    if (interval.known) provenCh += maturityGainedCh(interval, datumC)
    else unknownHours += interval.hours
  }
  return { provenCh, unknownHours }
}

/**
 * Returns the Nurse-Saul maturity Σ(T − datum)·Δt, or null when a gap or fewer than two readings make it unknown.
 *
 * Temperature runs straight between readings. Hours below 0 °C count as nothing, whatever the datum.
 *
 * @param series temperatures in the screed from the addition of water on.
 * @param datumC datum temperature, −10 (European use) or 0 (ASTM C1074 without admixture) [°C].
 * @returns maturity [°C·h], or null.
 * @throws InputError when a reading is not usable or times step back.
 * @source Nurse 1949, Saul 1951; datum −10 °C after Bergström; ASTM C1074.
 * @provenance from memory
 */
export function maturityCh(
  series: readonly TemperatureReading[],
  datumC = -10,
  options: { maxGapHours?: number } = {},
): number | null {
  const { provenCh, unknownHours } = maturityOf(series, datumC, options.maxGapHours)
  return series.length < 2 || unknownHours > 0 ? null : provenCh
}
