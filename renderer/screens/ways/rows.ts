import { costOfWay, type Span, type WayCost } from '#model/drying/what-if/cost.ts'
import { type Machines, meansOfWay, type WayMeans } from '#model/drying/what-if/means.ts'
import {
  isFound,
  type RoomFacts,
  type WayFound,
  type WayLacking,
  type WaysFound,
} from '#model/drying/what-if/shapes.ts'
import type { Why } from '#model/why.ts'
import { waysWords } from '../../app/words/ways.ts'
import { numberText } from '../../parts/number-text.ts'
import { rangeText, shortDay } from '../bay/date-range.ts'
import type { PlanReading } from './plan-draft.ts'

const words = waysWords.table

/** One answer of one way: the number, what belongs to it, and why. */
export interface WayCell {
  main: string
  sub?: string
  why?: Why | null
  /** Nothing is known, or nothing is needed: set back. */
  quiet?: boolean
}

export interface WayRow {
  name: string
  help?: string
  /** The first of a group, set off by a line. */
  begins?: boolean
  cells: WayCell[]
}

/** A way with what it takes and costs. */
export interface WayColumn {
  found: WayFound
  means: WayMeans
  cost: WayCost
}

export interface Clock {
  zone: string
  now: number
}

const unknown: WayCell = { main: words.notKnown, quiet: true }
const nothing: WayCell = { main: '–', quiet: true }

/** Returns what each way takes and costs; null for one that cannot be worked out. */
export function columnsOf(found: WaysFound, { machines, prices }: PlanReading): (WayColumn | WayLacking)[] {
  const { room, ways } = found
  const waiting = ways.find((way): way is WayFound => way.way === 'wait' && isFound(way))
  if (room === null || waiting === undefined) return []
  return ways.map((way) => (isFound(way) ? columnOf(way, waiting, room, machines, prices) : way))
}

function columnOf(
  found: WayFound,
  waiting: WayFound,
  room: RoomFacts,
  machines: Machines,
  prices: PlanReading['prices'],
): WayColumn {
  const means = meansOfWay(found, waiting, room, machines)
  return { found, means, cost: costOfWay(found, means, machines, prices) }
}

export const isWorkedOut = (column: WayColumn | WayLacking): column is WayColumn => 'found' in column

/** Returns the rows of the table: the same for the screen, for print, for copying and for CSV. */
export function rowsOf(
  columns: readonly (WayColumn | WayLacking)[],
  clock: Clock,
  currency: string,
): WayRow[] {
  const row = (
    name: string,
    cell: (column: WayColumn) => WayCell,
    more: { help?: string; begins?: boolean } = {},
  ): WayRow => ({
    name,
    ...more,
    cells: columns.map((column) => (isWorkedOut(column) ? cell(column) : unknown)),
  })
  const waiting = columns.find((column) => isWorkedOut(column) && column.found.way === 'wait')
  const waits = waiting !== undefined && isWorkedOut(waiting) ? waiting.found : null
  return [
    row(words.likely, ({ found }) => likelyCell(found, clock)),
    row(words.cautious, ({ found }) => cautiousCell(found, clock), { help: words.cautiousHelp }),
    row(words.gained, ({ found }) => gainedCell(found, waits), { help: words.gainedHelp }),
    row(words.room, ({ found }) => roomCell(found), { begins: true }),
    row(words.firstDay, ({ found: { water } }) => ({
      main: words.kg(kgText(water.firstDayKg)),
      why: water.why.firstDay,
    })),
    row(
      words.mean,
      ({ found: { water } }) => ({
        main: words.kgPerDay(kgText(water.meanKgPerDay)),
        sub: words.total(kgText(water.totalKg), water.days),
        why: water.why.mean,
      }),
      { help: words.meanHelp },
    ),
    row(
      words.air,
      ({ means }) =>
        means.airM3PerH === null
          ? nothing
          : { main: `${numberText(means.airM3PerH, 0)} m³/h`, why: means.why.air },
      { begins: true },
    ),
    row(words.heat, ({ means }) => heatCell(means), { help: words.heatHelp }),
    row(words.machines, ({ found, means }) => machinesCell(found, means)),
    row(words.energy, ({ found, cost }) => energyCell(found, cost), { help: words.energyHelp }),
    row(words.cost, ({ found, cost }) => costCell(found, cost, currency), {
      help: words.costHelp,
      begins: true,
    }),
    row(words.worth, ({ found, cost }) =>
      found.way === 'wait'
        ? nothing
        : cost.gained === null
          ? unknown
          : { main: moneyText(cost.gained, currency) },
    ),
  ]
}

/** From the early date to that of even chances; a date that has passed is not a date to plan on. */
export function likelyCell({ p10, p50, from, why }: WayFound, { zone, now }: Clock): WayCell {
  if (p50 === null) return { main: words.never, sub: words.neverWhy, why: why.at(-1) ?? null }
  const [early, even] = [Date.parse(p10 ?? p50), Date.parse(p50)]
  const whyLikely = why[1] ?? null
  if (even <= now) return { main: words.alreadyDry, why: whyLikely }
  if (early <= Math.max(now, Date.parse(from)))
    return { main: words.by(shortDay(even, zone, now)), why: whyLikely }
  return { main: rangeText(early, even, zone, now), why: whyLikely }
}

function cautiousCell({ p50, p90, why }: WayFound, { zone, now }: Clock): WayCell {
  if (p50 === null) return nothing
  if (p90 === null) return { main: words.lateNever, why: why.at(-1) ?? null }
  if (Date.parse(p90) <= now) return nothing
  return { main: shortDay(Date.parse(p90), zone, now), why: why[2] ?? null }
}

function gainedCell(found: WayFound, waiting: WayFound | null): WayCell {
  if (found.way === 'wait') return nothing
  if (found.daysGained === null) {
    const reaches = found.p50 !== null && waiting !== null && waiting.p50 === null
    return reaches ? { main: words.reaches } : { main: words.noGain, quiet: true }
  }
  const days = Math.round(found.daysGained)
  return {
    main: days < 0 ? words.later(words.days(-days)) : words.days(days),
    why: whyGained(found, waiting),
  }
}

function whyGained(found: WayFound, waiting: WayFound | null): Why {
  return {
    what: 'days gained against waiting',
    value: found.daysGained,
    unit: 'days',
    inputs: [
      { name: 'by waiting, even chances', value: dayOf(waiting?.p50), unit: '' },
      { name: 'this way, even chances', value: dayOf(found.p50), unit: '' },
    ],
    formula: 'difference of the two dates',
    source: 'two forecasts from the same readings, each with its own air',
    provenance: 'our judgement',
  }
}

const dayOf = (iso: string | null | undefined) => (iso == null ? null : iso.slice(0, 10))

function roomCell({ room, whyRoom }: WayFound): WayCell {
  const main = `${numberText(room.airC, 0)} °C, ${numberText(room.rhPercent, 0)} %`
  const isWarmer = room.screedC > room.airC + 0.5
  return { main, ...(isWarmer && { sub: `screed ${numberText(room.screedC, 0)} °C` }), why: whyRoom }
}

function heatCell({ heat, why }: WayMeans): WayCell {
  if (heat === null) return nothing
  const text = `${numberText(heat.totalKW, heat.totalKW < 1 ? 2 : 1)} kW`
  return heat.shellKW === null
    ? { main: words.notKnown, sub: words.shellUnknown(text), quiet: true, why: why.heat }
    : { main: text, why: why.heat }
}

function machinesCell(found: WayFound, { drying, heaters, fans, heat, why }: WayMeans): WayCell {
  if (found.way === 'wait') return nothing
  if (drying?.unsuitable != null) return { main: words.notKnown, sub: drying.unsuitable, why: why.drying }
  const dryers =
    drying === null
      ? []
      : drying.loadKgPerDay === 0
        ? [words.noDryer]
        : drying.units === null
          ? [words.rated(kgText(drying.ratedKgPerDay))]
          : [`${words.dryers(drying.units)} (${words.rated(kgText(drying.ratedKgPerDay))})`]
  const warms =
    found.way === 'floor heating'
      ? words.ownHeat
      : heaters === null
        ? null
        : heat?.shellKW === null
          ? words.atLeast(words.heaters(heaters))
          : words.heaters(heaters)
  const parts = [
    ...dryers,
    ...(heat === null || warms === null || heaters === 0 ? [] : [warms]),
    ...(fans === null ? [] : [fans === 0 ? words.windows : words.fans(fans)]),
  ]
  const [main = words.none, ...rest] = parts
  return { main, ...(rest.length > 0 && { sub: rest.join(', ') }), why: why.drying }
}

function energyCell(found: WayFound, { heatKWh, electricityKWh, why }: WayCost): WayCell {
  if (found.way === 'wait') return nothing
  if (electricityKWh === null || heatKWh.likely === null) return unknown
  const sum = (a: number | null, b: number | null) => (a === null || b === null ? null : a + b)
  const likely = sum(heatKWh.likely, electricityKWh.likely)!
  const cautious = sum(heatKWh.cautious, electricityKWh.cautious)
  return { main: spanText({ likely, cautious }, 'kWh'), why: why.energy }
}

function costCell(found: WayFound, { cost, lacks, isLeast, why }: WayCost, currency: string): WayCell {
  if (found.way === 'wait') return { main: words.none, quiet: true }
  if (cost === null) return { main: words.notKnown, sub: words.needs(lacks.join(', ')), quiet: true }
  const text = spanText(cost, currency)
  return {
    main: isLeast ? words.atLeast(text) : text,
    why: why.cost === null ? null : { ...why.cost, unit: currency },
  }
}

function spanText({ likely, cautious }: Span, unit: string): string {
  if (likely === null) return words.notKnown
  const [from, to] = [numberText(likely, 0), cautious === null ? null : numberText(cautious, 0)]
  return `${to === null || to === from ? from : words.upTo(from, to)} ${unit}`
}

const kgText = (kg: number) => numberText(kg, kg < 1 ? 2 : kg < 10 ? 1 : 0)
const moneyText = (value: number, currency: string) => `${numberText(value, 0)} ${currency}`
