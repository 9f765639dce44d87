import { dayMs } from '#model/time.ts'
import type { Why } from '../../why.ts'
import type { ConstantClimate } from '../climate.ts'
import type { ForecastDates } from '../forecast/forecast.ts'
import type { Bay } from '../march.ts'
import { waterAhead } from './middle-bay.ts'
import type { WayWater } from './shapes.ts'

/** Where no date is in sight, the mean is over this many days. */
const MEAN_WITHOUT_DATE_DAYS = 90
/** A fresh layer holds water that the model leaves out; it leaves in the first days. */
const FRESH_ALLOWANCE = 1.3
const FRESH_DAYS = 7
export const WEEK_DAYS = 7

/** One bay of the room: its area, its forecast and the middle of it. */
export interface DryingBay {
  areaM2: number
  dates: ForecastDates
  bay: Bay
}

/** Returns the mean water that bays give to the same air in the coming week [kg/day]. */
export function weekMeanKgPerDay(bays: readonly DryingBay[], air: Required<ConstantClimate>): number {
  return sum(byDay(bays, () => air, WEEK_DAYS)) / WEEK_DAYS
}

/**
 * Returns the water that the bays of a room give off: on the first day, for ordering equipment, on average.
 * @param args.untilMs the likely date, until which the mean is taken; null: over 90 days
 * @source water balance of the drying model, middle of the forecast
 * @provenance our judgement
 */
export function waterOf({
  bays,
  airOf,
  untilMs,
  leakKgPerDay,
}: {
  bays: readonly DryingBay[]
  airOf: (bay: DryingBay) => Required<ConstantClimate>
  untilMs: number | null
  leakKgPerDay: number | null
}): WayWater {
  const from = Math.max(...bays.map(({ dates }) => dates.prepared.turnMs))
  const days = untilMs === null ? MEAN_WITHOUT_DATE_DAYS : Math.max(1, Math.ceil((untilMs - from) / dayMs))
  const kgPerDay = byDay(bays, airOf, Math.max(days, WEEK_DAYS))
  const counted = kgPerDay.slice(0, days)
  const totalKg = sum(counted)
  const isFresh = bays.some(
    ({ dates: { prepared } }) => prepared.turnMs - prepared.dryMs < FRESH_DAYS * dayMs,
  )
  const allowance = isFresh ? FRESH_ALLOWANCE : 1
  const water = {
    firstDayKg: kgPerDay[0]!,
    firstWeekKgPerDay: sum(kgPerDay.slice(0, WEEK_DAYS)) / WEEK_DAYS,
    sizingKgPerDay: Math.max(0, allowance * Math.max(kgPerDay[1]!, kgPerDay[2]!)),
    meanKgPerDay: totalKg / days,
    totalKg,
    days,
    leakKgPerDay,
  }
  return { ...water, why: whyWater(water, bays, isFresh) }
}

function byDay(
  bays: readonly DryingBay[],
  airOf: (bay: DryingBay) => Required<ConstantClimate>,
  days: number,
): number[] {
  const total = new Array<number>(days).fill(0)
  for (const one of bays) {
    waterAhead(one.bay, airOf(one), one.dates.prepared, days).forEach((kg, day) => {
      total[day]! += kg * one.areaM2
    })
  }
  return total
}

function whyWater(
  water: Omit<WayWater, 'why'>,
  bays: readonly DryingBay[],
  isFresh: boolean,
): WayWater['why'] {
  const areaM2 = sum(bays.map((one) => one.areaM2))
  const inputs: Why['inputs'] = [
    { name: 'area', value: areaM2, unit: 'm²' },
    {
      name: 'mean thickness',
      value: sum(bays.map((one) => one.areaM2 * one.dates.prepared.thicknessMm)) / areaM2,
      unit: 'mm',
    },
    { name: 'bays', value: bays.length, unit: '' },
  ]
  const one = (what: string, value: number, formula: string, more: Why['inputs'] = []): Why => ({
    what,
    value,
    unit: 'kg/day',
    inputs: [...inputs, ...more],
    formula,
    source: 'water balance of the drying model, middle of the forecast',
    provenance: 'our judgement',
  })
  return {
    firstDay: one('water on the first day', water.firstDayKg, 'water given off in 24 hours × area'),
    sizing: one(
      'water to order equipment by',
      water.sizingKgPerDay,
      isFresh
        ? 'the larger of days 2 and 3 × 1.3 for fresh water that the model leaves out'
        : 'the larger of days 2 and 3',
    ),
    mean: one('water on average', water.meanKgPerDay, 'all water given off / days', [
      { name: 'all water', value: water.totalKg, unit: 'kg' },
      { name: 'days', value: water.days, unit: 'days' },
    ]),
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
