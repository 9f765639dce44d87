import { dayMs } from '#model/time.ts'
import type { Why } from '../../why.ts'
import type { Machines, WayMeans } from './means.ts'
import type { WayFound } from './shapes.ts'

/** What a firm pays, in the currency of the project. Null: not typed, and then a cost that needs it is not known. */
export interface Prices {
  heatPerKWh: number | null
  electricityPerKWh: number | null
  heaterPerDay: number | null
  dehumidifierPerDay: number | null
  fanPerDay: number | null
  dayOfDelay: number | null
}

/** Until the likely and until the cautious date; null where there is no such date. */
export interface Span {
  likely: number | null
  cautious: number | null
}

export interface WayCost {
  days: Span
  heatKWh: Span
  electricityKWh: Span | null
  /** Hire and energy; null when a rate or a number is missing, or no date is in sight. */
  cost: Span | null
  /** True when heat through the shell of the room is not in it. */
  isLeast: boolean
  /** What the whole days gained are worth at the rate of a day of delay; null when that was not typed. */
  gained: number | null
  /** What is missing to know the cost, by name. */
  lacks: string[]
  why: { energy: Why | null; cost: Why | null }
}

interface Item {
  name: string
  /** Per day of the way. */
  amountPerDay: number
  unit: string
  rate: number | null
  rateName: string
}

/**
 * Returns energy and cost of a way until its likely and its cautious date.
 * Power × time, hire × time; heat is that of the first week throughout, so it errs high. Waiting costs nothing extra.
 * A rate that nobody typed leaves the cost not known.
 * @source arithmetic on typed rates
 * @provenance our judgement
 */
export function costOfWay(way: WayFound, means: WayMeans, machines: Machines, prices: Prices): WayCost {
  const days: Span = { likely: daysUntil(way, way.p50), cautious: daysUntil(way, way.p90) }
  const over = (perDay: number): Span => ({
    likely: days.likely === null ? null : perDay * days.likely,
    cautious: days.cautious === null ? null : perDay * days.cautious,
  })
  const electric = electricityKWhPerDay(way, means, machines)
  const heatKWhPerDay = 24 * (means.heat?.totalKW ?? 0)
  const items = itemsOf(way, means, electric.kWhPerDay, heatKWhPerDay, prices)
  const lacks = [
    ...electric.lacks,
    ...unitsLacking(way, means),
    ...items.flatMap(({ rate, rateName }) => (rate === null ? [rateName] : [])),
    ...(days.likely === null ? ['an end: it does not reach the limit in two years'] : []),
    ...(means.drying?.unsuitable == null ? [] : ['a machine that works in this room']),
  ]
  const perDay = items.reduce((sum, { amountPerDay, rate }) => sum + amountPerDay * (rate ?? 0), 0)
  const cost = lacks.length > 0 ? null : over(perDay)
  return {
    days,
    heatKWh: over(heatKWhPerDay),
    electricityKWh: electric.kWhPerDay === null ? null : over(electric.kWhPerDay),
    cost,
    isLeast: means.heat !== null && means.heat.shellKW === null,
    gained:
      prices.dayOfDelay === null || way.daysGained === null
        ? null
        : prices.dayOfDelay * (Math.round(way.daysGained) || 0),
    lacks: [...new Set(lacks)],
    why: {
      energy: whyEnergy(heatKWhPerDay, electric.kWhPerDay, days),
      cost: cost === null || items.length === 0 ? null : whyCost(cost, items, days),
    },
  }
}

function daysUntil({ from }: WayFound, iso: string | null): number | null {
  return iso === null ? null : Math.max(0, Math.ceil((Date.parse(iso) - Date.parse(from)) / dayMs))
}

/** Fans run all day; a dehumidifier as long as it takes to draw the mean water at its capacity in this room. */
function electricityKWhPerDay(
  { water }: WayFound,
  { drying, fans }: WayMeans,
  { dehumidifier, fan }: Machines,
): { kWhPerDay: number | null; lacks: string[] } {
  const lacks: string[] = []
  let kWhPerDay = 0
  if (fans !== null && fans > 0) {
    if (fan.kW === null) lacks.push('kW of a fan')
    kWhPerDay += fans * 24 * (fan.kW ?? 0)
  }
  if (drying !== null && drying.loadKgPerDay > 0) {
    const { kgPerDay, kW } = dehumidifier
    if (kgPerDay === null) lacks.push('kg a day of a dehumidifier')
    if (kW === null) lacks.push('kW of a dehumidifier')
    if (kgPerDay !== null && kW !== null) {
      const takes = Math.max(0, water.meanKgPerDay + (water.leakKgPerDay ?? 0))
      kWhPerDay += (takes / (kgPerDay * drying.share)) * 24 * kW
    }
  }
  return { kWhPerDay: lacks.length > 0 ? null : kWhPerDay, lacks }
}

function unitsLacking(way: WayFound, { heat, heaters }: WayMeans): string[] {
  const wantsHeaters = heat !== null && way.way !== 'floor heating' && heat.totalKW > 0
  return wantsHeaters && heaters === null ? ['kW of a heater'] : []
}

function itemsOf(
  way: WayFound,
  { heat, heaters, drying, fans }: WayMeans,
  electricityPerDay: number | null,
  heatKWhPerDay: number,
  prices: Prices,
): Item[] {
  const item = (
    name: string,
    amountPerDay: number | null,
    unit: string,
    rate: number | null,
    rateName: string,
  ): Item[] =>
    amountPerDay === null || amountPerDay === 0 ? [] : [{ name, amountPerDay, unit, rate, rateName }]
  return [
    ...item('heat', heatKWhPerDay, 'kWh', prices.heatPerKWh, 'price of heat'),
    ...item('electricity', electricityPerDay, 'kWh', prices.electricityPerKWh, 'price of electricity'),
    ...item(
      'heaters',
      heat === null || way.way === 'floor heating' ? null : heaters,
      'days of hire',
      prices.heaterPerDay,
      'hire of a heater',
    ),
    ...item(
      'dehumidifiers',
      drying?.units ?? null,
      'days of hire',
      prices.dehumidifierPerDay,
      'hire of a dehumidifier',
    ),
    ...item('fans', fans, 'days of hire', prices.fanPerDay, 'hire of a fan'),
  ]
}

function whyEnergy(heatPerDay: number, electricityPerDay: number | null, days: Span): Why | null {
  if (days.likely === null) return null
  return {
    what: 'energy until the likely date',
    value: electricityPerDay === null ? null : (heatPerDay + electricityPerDay) * days.likely,
    unit: 'kWh',
    inputs: [
      { name: 'heat', value: heatPerDay, unit: 'kWh/day' },
      { name: 'electricity of machines', value: electricityPerDay, unit: 'kWh/day' },
      { name: 'days until the likely date', value: days.likely, unit: 'days' },
      { name: 'days until the cautious date', value: days.cautious, unit: 'days' },
    ],
    formula:
      'heat in kW × 24 h; a dehumidifier runs for mean water / its capacity in this room of each day; × days',
    source: 'arithmetic; heat as in the first week throughout, so it errs high',
    provenance: 'our judgement',
  }
}

function whyCost(cost: Span, items: readonly Item[], days: Span): Why {
  return {
    what: 'hire and energy until the likely date',
    value: cost.likely,
    unit: '',
    inputs: [
      ...items.flatMap(({ name, amountPerDay, unit, rate, rateName }) => [
        { name: `${name} a day`, value: amountPerDay, unit },
        { name: rateName, value: rate, unit: unit === 'kWh' ? 'per kWh' : 'per day' },
      ]),
      { name: 'days until the likely date', value: days.likely, unit: 'days' },
      { name: 'until the cautious date', value: cost.cautious, unit: '' },
    ],
    formula: 'sum of amounts a day × rates, × days',
    source: 'rates as typed on this page',
    provenance: 'company rule',
  }
}
