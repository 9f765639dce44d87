import { hourMs } from '#model/time.ts'
import { requireInstant, requireNumber, requireOrdered } from '../errors.ts'

/** The air of the room at one instant. */
export interface ClimateSample {
  /** ISO instant with offset, or epoch milliseconds. */
  at: string | number
  airC: number
  rhPercent: number
  airSpeedMs?: number
  /** Temperature of the screed when it was measured; else the screed is taken at air temperature. */
  screedC?: number
}

export type ConstantClimate = Omit<ClimateSample, 'at'>
export type Climate = readonly ClimateSample[] | ConstantClimate

/** A stretch of time without readings, and what was assumed for it. */
export interface ClimateGap {
  fromMs: number
  toMs: number
  hours: number
  assumed: string
}

/** The room's air hour by hour from `startMs`. */
export interface HourlyClimate {
  startMs: number
  hours: number
  airC: Float64Array
  screedC: Float64Array
  rhPercent: Float64Array
  airSpeedMs: Float64Array
  gaps: ClimateGap[]
}

const DEFAULT_AIR_SPEED_MS = 0.1
/** Two readings a working day leave 16 hours between; more than this is a gap. */
const LONGEST_BRIDGE_MS = 26 * hourMs
const NEIGHBOURHOOD_MS = 72 * hourMs

export function isSeries(climate: Climate): climate is readonly ClimateSample[] {
  return Array.isArray(climate)
}

interface Reading extends ConstantClimate {
  atMs: number
}

function checkAir(field: string, air: ConstantClimate): void {
  requireNumber(`${field}.airC`, air.airC, -30, 60, '°C')
  requireNumber(`${field}.rhPercent`, air.rhPercent, 1, 100, '% RH')
  if (air.airSpeedMs !== undefined) requireNumber(`${field}.airSpeedMs`, air.airSpeedMs, 0, 25, 'm/s')
  if (air.screedC !== undefined) requireNumber(`${field}.screedC`, air.screedC, -30, 65, '°C')
}

/** Throws InputError naming the reading when a climate is impossible or out of order. */
export function requireClimate(field: string, climate: Climate): void {
  if (!isSeries(climate)) {
    checkAir(field, climate)
    return
  }
  climate.forEach((sample, i) => {
    requireInstant(`${field}[${i}].at`, sample.at)
    checkAir(`${field}[${i}]`, sample)
  })
  requireOrdered(
    field,
    climate.map((sample) => requireInstant(field, sample.at)),
  )
}

const screedOf = (air: ConstantClimate) => air.screedC ?? air.airC
const speedOf = (air: ConstantClimate) => air.airSpeedMs ?? DEFAULT_AIR_SPEED_MS

/** Returns the mean air of some readings; null when there are none. */
export function meanAir(readings: readonly ConstantClimate[]): Required<ConstantClimate> | null {
  if (readings.length === 0) return null
  const mean = (of: (air: ConstantClimate) => number) =>
    readings.reduce((sum, air) => sum + of(air), 0) / readings.length
  return {
    airC: mean((air) => air.airC),
    rhPercent: mean((air) => air.rhPercent),
    airSpeedMs: mean(speedOf),
    screedC: mean(screedOf),
  }
}

/**
 * Returns a climate hour by hour. Readings less than 26 hours apart are joined by straight lines (two readings a day
 * leave 16 hours); several within an hour are averaged. A longer stretch takes the mean of the readings within three
 * days of it and is reported as a gap.
 * @errors InputError when a value is impossible or the readings are out of order
 */
export function hourlyClimate(
  climate: Climate,
  startMs: number,
  endMs: number,
  field = 'climate',
): HourlyClimate {
  requireClimate(field, climate)
  const hours = Math.max(1, Math.ceil((endMs - startMs) / hourMs))
  const series = () => new Float64Array(hours)
  const out: HourlyClimate = {
    startMs,
    hours,
    airC: series(),
    screedC: series(),
    rhPercent: series(),
    airSpeedMs: series(),
    gaps: [],
  }
  const put = (i: number, air: ConstantClimate) => {
    out.airC[i] = air.airC
    out.rhPercent[i] = air.rhPercent
    out.screedC[i] = screedOf(air)
    out.airSpeedMs[i] = speedOf(air)
  }
  if (!isSeries(climate)) {
    for (let i = 0; i < hours; i++) put(i, climate)
    return out
  }
  const readings = climate.map((sample): Reading => ({ ...sample, atMs: requireInstant(field, sample.at) }))
  if (readings.length === 0) requireNumber(`${field}.length`, 0, 1, Number.MAX_SAFE_INTEGER, 'readings')
  let next = 0
  let gap: { untilHour: number; air: ConstantClimate } | null = null
  for (let i = 0; i < hours; i++) {
    const from = startMs + i * hourMs
    const middle = from + hourMs / 2
    const within: Reading[] = []
    while (next < readings.length && readings[next]!.atMs < from) next++
    for (let k = next; k < readings.length && readings[k]!.atMs < from + hourMs; k++)
      within.push(readings[k]!)
    if (within.length > 1) {
      put(i, meanAir(within)!)
      continue
    }
    let after = next
    while (after < readings.length && readings[after]!.atMs < middle) after++
    const b = readings[after]
    const a = readings[after - 1]
    if (a !== undefined && b !== undefined && b.atMs - a.atMs <= LONGEST_BRIDGE_MS) {
      put(i, between(a, b, middle))
      continue
    }
    if (gap === null || i >= gap.untilHour) {
      const opened = openGap(readings, a, b, startMs, endMs)
      out.gaps.push(opened.gap)
      gap = { untilHour: Math.ceil((opened.gap.toMs - startMs) / hourMs), air: opened.air }
      // Edges shorter than a working day's silence are held, not called gaps.
      if (opened.gap.hours <= LONGEST_BRIDGE_MS / hourMs && (a === undefined || b === undefined))
        out.gaps.pop()
    }
    put(i, gap.air)
  }
  return out
}

function between(a: Reading, b: Reading, atMs: number): ConstantClimate {
  const share = b.atMs === a.atMs ? 0 : (atMs - a.atMs) / (b.atMs - a.atMs)
  const mix = (of: (air: ConstantClimate) => number) => of(a) + share * (of(b) - of(a))
  return {
    airC: mix((air) => air.airC),
    rhPercent: mix((air) => air.rhPercent),
    airSpeedMs: mix(speedOf),
    screedC: mix(screedOf),
  }
}

function openGap(
  readings: Reading[],
  a: Reading | undefined,
  b: Reading | undefined,
  startMs: number,
  endMs: number,
) {
  const fromMs = a?.atMs ?? startMs
  const toMs = b?.atMs ?? endMs
  const near = readings.filter(
    (reading) =>
      (a !== undefined && reading.atMs <= fromMs && reading.atMs >= fromMs - NEIGHBOURHOOD_MS) ||
      (b !== undefined && reading.atMs >= toMs && reading.atMs <= toMs + NEIGHBOURHOOD_MS),
  )
  const air = meanAir(near)!
  const assumed = `mean of ${near.length} readings within three days: ${air.airC.toFixed(1)} °C, ${air.rhPercent.toFixed(0)} % RH`
  return { gap: { fromMs, toMs, hours: (toMs - fromMs) / hourMs, assumed }, air }
}
