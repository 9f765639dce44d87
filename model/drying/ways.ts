import { dayMs } from '#model/time.ts'
import { requireLength, requireNumber } from '../errors.ts'
import type { ConstantClimate } from './climate.ts'
import { type AirState, type Equipment, equipmentFor } from './equipment.ts'
import type { Middle } from './forecast/drivers.ts'
import { forecastDates } from './forecast/forecast.ts'
import type { ForecastInput, Prepared } from './forecast/question.ts'
import { middleBay, waterAhead } from './what-if/middle-bay.ts'

/** Water is counted over this many days from now, the time for which equipment is hired first. */
const LOAD_DAYS = 7
const YOUNG_CEMENT_DAYS = 28

export interface Way {
  name: string
  /** The room from now on, if this is done. */
  climate: ConstantClimate
}

export interface WayResult {
  name: string
  p10: string | null
  p50: string | null
  p90: string | null
  /** Null when nothing can be forecast. */
  notReachedProbability: number | null
  /** Days that the middle date comes earlier than with the forecast's own climate; null when either has none. */
  daysSaved: number | null
  /** Mean over the next seven days [kg/day]; null without an area or while it cannot be forecast. */
  waterKgPerDay: number | null
  equipment: Equipment | null
  cautions: string[]
}

/**
 * Returns how far heating, drying or ventilating the room would move the date, and what each takes.
 * Each way is a full forecast from the same readings with its own future climate; the first result is the forecast's
 * own. Water is that of the middle run over the next seven days.
 * @param input a forecast's input, the ways, the area [m²] and the outdoor air for the equipment
 * @errors InputError naming the field
 * @source `forecastReady`, `equipmentFor`
 * @provenance our judgement
 */
export function compareWays(
  input: ForecastInput & { ways: readonly Way[]; areaM2?: number; outdoor?: AirState },
): WayResult[] {
  requireLength('ways', input.ways, 1)
  if (input.areaM2 !== undefined) requireNumber('areaM2', input.areaM2, 0.01, 1e6, 'm²')
  const results: WayResult[] = []
  let baseMs: number | null = null
  const all = [{ name: 'as forecast', climate: null }, ...input.ways]
  for (const way of all) {
    const dates = forecastDates(way.climate === null ? input : { ...input, futureClimate: way.climate })
    if ('missing' in dates) {
      results.push({ ...unknownWay, name: way.name })
      continue
    }
    const { prepared, middle, quantileMs, notReachedProbability } = dates
    const p50Ms = quantileMs(0.5)
    if (way.climate === null) baseMs = p50Ms
    const iso = (p: number) => {
      const at = quantileMs(p)
      return at === null ? null : new Date(at).toISOString()
    }
    const waterKgPerDay =
      input.areaM2 === undefined ? null : Math.max(0, meanAhead(prepared, middle) * input.areaM2)
    results.push({
      name: way.name,
      p10: iso(0.1),
      p50: iso(0.5),
      p90: iso(0.9),
      notReachedProbability,
      daysSaved: baseMs === null || p50Ms === null ? null : (baseMs - p50Ms) / dayMs,
      waterKgPerDay,
      equipment:
        waterKgPerDay === null || input.outdoor === undefined
          ? null
          : equipmentFor({ loadKgPerDay: waterKgPerDay, room: prepared.futureAir, outdoor: input.outdoor }),
      cautions: cautionsFor(prepared, way.climate),
    })
  }
  return results
}

const unknownWay: Omit<WayResult, 'name'> = {
  p10: null,
  p50: null,
  p90: null,
  notReachedProbability: null,
  daysSaved: null,
  waterKgPerDay: null,
  equipment: null,
  cautions: [],
}

/** Returns the mean of the water that a middle bay gives off each day over the next week [kg/(m² day)]. */
function meanAhead(prepared: Prepared, middle: Middle): number {
  const days = waterAhead(middleBay(prepared, middle), prepared.futureAir, prepared, LOAD_DAYS)
  return days.reduce((sum, kg) => sum + kg, 0) / LOAD_DAYS
}

function cautionsFor(prepared: Prepared, climate: ConstantClimate | null): string[] {
  if (climate === null) return []
  const cautions = [
    'Burners without a flue give off water and carbon monoxide: do not use them to dry a floor.',
  ]
  if (prepared.asOfMs < prepared.dryMs) cautions.push('Do not heat or dry while the bay is curing.')
  if (
    prepared.material.binder === 'cement' &&
    prepared.asOfMs - prepared.laidMs < YOUNG_CEMENT_DAYS * dayMs
  ) {
    cautions.push(
      'A cement screed younger than 28 days that is dried fast may curl, crack or lose its bond (trade guidance).',
    )
  }
  if (climate.rhPercent < 40) cautions.push('Air this dry raises the risk of curling at edges and joints.')
  return cautions
}
