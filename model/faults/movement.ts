import { dayMs } from '#model/time.ts'
import { requireInstant, requireNumber, requireOrdered } from '../errors.ts'
import type { GaugeReading, Movement } from './shapes.ts'

/** What a gauge must show. Our judgement: below a tenth of a millimetre two readings by hand are the same. */
export const movementRules = {
  /** A change above this, over this long, is movement. */
  liveChangeMm: 0.1,
  liveDays: 7,
  /** No change above it over this long is stillness. */
  dormantDays: 14,
  dormantReadings: 3,
  /** Surface temperature must have moved this much to say anything on the link to it [K]. */
  leastSwingK: 3,
  /** Correlation of width with temperature from which one follows the other. */
  follows: 0.6,
} as const

interface PlaceMovement {
  verdict: Movement['verdict']
  place: string
  changeMm: number
  days: number
  readings: number
  swingK: number | null
  follows: Movement['followsTemperature']
  entries: string[]
}

/**
 * Returns whether a crack moves, from readings of its width.
 *
 * Each place is judged for itself. Live: the width changed by more than 0.1 mm over seven days or more. Dormant: every place
 * kept within 0.1 mm over fourteen days or more, with three readings or more. Anything else is not known.
 *
 * @param readings any order; readings without a place belong to one place.
 * @returns the verdict with the place that moved most, whether it follows temperature, and what is still to be measured.
 * @throws InputError naming the field when a width or an instant is not usable.
 * @provenance our judgement
 */
export function liveOrDormant(readings: readonly GaugeReading[]): Movement {
  const places = [...placesOf(readings)].map(([place, list]) => judgePlace(place, list))
  const entries = [...new Set(places.flatMap((place) => place.entries))]
  const told = places.filter(({ readings: count }) => count >= 2)
  const most = told.toSorted((a, b) => b.changeMm - a.changeMm)[0]
  if (most === undefined) {
    return {
      verdict: 'not known',
      changeMm: null,
      days: null,
      followsTemperature: 'not known',
      words:
        readings.length === 0
          ? 'Nobody has gauged the crack.'
          : 'No place was gauged twice, so nobody knows whether it moves.',
      measure: `Gauge the crack with its surface temperature at marked places for ${movementRules.dormantDays} days.`,
      entries,
    }
  }
  const live = told.filter(({ verdict }) => verdict === 'live').toSorted((a, b) => b.changeMm - a.changeMm)[0]
  if (live !== undefined) return answer('live', live, entries)
  return places.every(({ verdict }) => verdict === 'dormant')
    ? answer('dormant', most, entries)
    : answer('not known', most, entries)
}

function placesOf(readings: readonly GaugeReading[]): Map<string, (GaugeReading & { ms: number })[]> {
  const checked = readings.map((reading, i) => {
    requireNumber(`readings[${i}].widthMm`, reading.widthMm, 0, 30, 'mm')
    if (reading.surfaceC !== undefined && reading.surfaceC !== null)
      requireNumber(`readings[${i}].surfaceC`, reading.surfaceC, -30, 70, '°C')
    return { ...reading, ms: requireInstant(`readings[${i}].at`, reading.at) }
  })
  const places = Map.groupBy(checked, ({ place }) => (place ?? '').trim().toLowerCase())
  for (const list of places.values()) list.sort((a, b) => a.ms - b.ms)
  return places
}

function judgePlace(place: string, list: readonly (GaugeReading & { ms: number })[]): PlaceMovement {
  requireOrdered(
    'readings',
    list.map(({ ms }) => ms),
  )
  const widths = list.map(({ widthMm }) => widthMm)
  const changeMm = hundredths(Math.max(...widths) - Math.min(...widths))
  const days = (list.at(-1)!.ms - list[0]!.ms) / dayMs
  const moves = changeMm > movementRules.liveChangeMm
  const still = !moves && days >= movementRules.dormantDays && list.length >= movementRules.dormantReadings
  const read = list.filter(({ surfaceC }) => surfaceC !== undefined && surfaceC !== null)
  const temps = read.map(({ surfaceC }) => surfaceC!)
  const swingK = temps.length < 2 ? null : hundredths(Math.max(...temps) - Math.min(...temps))
  return {
    verdict: moves && days >= movementRules.liveDays ? 'live' : still ? 'dormant' : 'not known',
    place,
    changeMm,
    days,
    readings: list.length,
    swingK,
    follows: followsTemperature(
      read.map(({ widthMm }) => widthMm),
      temps,
      swingK,
    ),
    entries: list.flatMap(({ entry }) => (entry === undefined ? [] : [entry])),
  }
}

/** A crack opens as the screed cools, or closes: either way the two go together. */
function followsTemperature(
  widths: number[],
  temps: number[],
  swingK: number | null,
): Movement['followsTemperature'] {
  if (swingK === null || swingK < movementRules.leastSwingK || temps.length < 3) return 'not known'
  const r = correlation(widths, temps)
  return r !== null && Math.abs(r) >= movementRules.follows ? 'yes' : 'no'
}

function correlation(a: number[], b: number[]): number | null {
  const mean = (list: number[]) => list.reduce((sum, x) => sum + x, 0) / list.length
  const [meanA, meanB] = [mean(a), mean(b)]
  let [ab, aa, bb] = [0, 0, 0]
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [a[i]! - meanA, b[i]! - meanB]
    ab += x * y
    aa += x * x
    bb += y * y
  }
  return aa === 0 || bb === 0 ? null : ab / Math.sqrt(aa * bb)
}

function answer(verdict: Movement['verdict'], most: PlaceMovement, entries: string[]): Movement {
  const { changeMm, days, readings, place, swingK, follows } = most
  const where = place === '' ? '' : ` at “${place}”`
  const seen = `${readings} readings over ${Math.round(days * 10) / 10} days${where}: the width moved by ${changeMm} mm`
  const temperature =
    follows === 'yes'
      ? ', together with the temperature'
      : follows === 'no'
        ? ', not together with the temperature'
        : swingK === null
          ? '; the temperature was not read with it'
          : `; the temperature moved by ${swingK} K only`
  const measure =
    verdict === 'not known'
      ? changeMm > movementRules.liveChangeMm
        ? `It moved already; read on until ${movementRules.liveDays} days are full.`
        : `Read on at every place until ${movementRules.dormantDays} days and ${movementRules.dormantReadings} readings are full.`
      : null
  return {
    verdict,
    changeMm,
    days,
    followsTemperature: follows,
    words: `${seen}${temperature}.`,
    measure,
    entries,
  }
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100
}
