import { InputError, requireNumber } from '../errors.ts'
import { type Interval, intervalsOf, type TemperatureReading, unknownHours } from './temperature-series.ts'

export type AgeMethod = 'ec2-b10' | 'fhp' | 'nurse-saul'

export interface AgeOptions {
  /** Readings further apart than this leave the time between unknown; 3 by default [h]. */
  maxGapHours?: number
  /** Datum of the Nurse-Saul method; −10 by default, 0 in ASTM C1074 without admixture [°C]. */
  datumC?: number
}

const gasConstant = 8.314
const hydrationStopsC = -10

/** EN 1992-1-1 (B.10): about 1 at 20 °C (0.9981, as printed). */
function ec2Factor(tempC: number): number {
  return Math.exp(-(4000 / (273 + tempC) - 13.65))
}

/** Freiesleben Hansen & Pedersen 1977: activation energy 33.5 kJ/mol, rising by 1.47 kJ/mol for each kelvin below 20 °C. */
function fhpFactor(tempC: number): number {
  const energy = 1000 * (33.5 + 1.47 * Math.max(0, 20 - tempC))
  return Math.exp(-(energy / gasConstant) * (1 / (273 + tempC) - 1 / 293))
}

/**
 * Returns how fast a cement screed gains age at a temperature, against 1 at 20 °C.
 *
 * @param tempC −40 to 70 [°C]; at −10 °C and below nothing is gained.
 * @param method which law; `fhp` is the careful one below 10 °C.
 * @throws InputError when the temperature is out of range or the method unknown.
 * @source EN 1992-1-1 (B.10); Freiesleben Hansen & Pedersen 1977; Nurse-Saul as ASTM C1074.
 * @provenance from memory
 */
export function agingFactor(tempC: number, method: AgeMethod, datumC = -10): number {
  requireNumber('tempC', tempC, -40, 70, '°C')
  if (method === 'nurse-saul') return nurseSaulFactor(tempC, requireNumber('datumC', datumC, -15, 5, '°C'))
  if (tempC <= hydrationStopsC && (method === 'ec2-b10' || method === 'fhp')) return 0
  if (method === 'ec2-b10') return ec2Factor(tempC)
  if (method === 'fhp') return fhpFactor(tempC)
  throw new InputError('method', `There is no method “${String(method)}”; choose ec2-b10, fhp or nurse-saul.`)
}

function nurseSaulFactor(tempC: number, datumC: number): number {
  return Math.max(0, tempC - datumC) / (20 - datumC)
}

/** The equivalent age gained in an interval: mean of the rates at its ends. */
export function ageGainedDays(interval: Interval, method: AgeMethod, datumC?: number): number {
  const mean = (agingFactor(interval.startC, method, datumC) + agingFactor(interval.endC, method, datumC)) / 2
  return (mean * interval.hours) / 24
}

/**
 * Returns the age at 20 °C that has done as much for strength as the recorded temperatures did, or null when a gap in the
 * series, or fewer than two readings, make it unknown.
 *
 * Rates are integrated by the trapezoid between readings. A gap longer than `options.maxGapHours` is not bridged.
 *
 * @param series temperatures in the screed from the addition of water on.
 * @param method `ec2-b10`, `fhp` (careful below 10 °C) or `nurse-saul`.
 * @returns equivalent age [days at 20 °C], or null.
 * @throws InputError when a reading is not usable, times step back or the method is unknown.
 * @source EN 1992-1-1 (B.10); Freiesleben Hansen & Pedersen 1977; ASTM C1074.
 * @accuracy the formulas are met to rounding; the three differ by a third at 5 °C, so say which one was used.
 * @provenance from memory
 */
export function equivalentAgeDays(
  series: readonly TemperatureReading[],
  method: AgeMethod,
  options: AgeOptions = {},
): number | null {
  const intervals = intervalsOf(series, options.maxGapHours)
  const age = intervals.reduce((sum, interval) => sum + ageGainedDays(interval, method, options.datumC), 0)
  return intervals.length === 0 || unknownHours(intervals) > 0 ? null : age
}
