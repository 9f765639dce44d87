import type { Prices } from '#model/drying/what-if/cost.ts'
import type { DehumidifierKind, Machines } from '#model/drying/what-if/means.ts'
import { type RoomPlan, type WayId, wayIds } from '#model/drying/what-if/shapes.ts'
import { waysWords as words } from '../../app/words/ways.ts'
import { numberFromTyped, numberText } from '../../parts/number-text.ts'

interface FieldSpec {
  unit: string
  least: number
  most: number
  /** What stands there before anybody typed. */
  first?: string
}

/** The air of the room: changing one of these works everything out again. */
export const roomFields = {
  outdoorC: { unit: '°C', least: -40, most: 50 },
  outdoorRh: { unit: '%', least: 1, most: 100 },
  heightM: { unit: 'm', least: 1.5, most: 30, first: '2.5' },
  shutAirChanges: { unit: '1/h', least: 0.01, most: 10 },
  airChanges: { unit: '1/h', least: 0.05, most: 30, first: '2' },
  heatToC: { unit: '°C', least: 5, most: 45, first: '22' },
  dryToRh: { unit: '%', least: 15, most: 90, first: '45' },
  heatedScreedC: { unit: '°C', least: 15, most: 50, first: '27' },
} as const satisfies Record<string, FieldSpec>

/** From data sheets: these change machines and cost, never a date. */
export const machineFields = {
  dehumidifierKg: { unit: 'kg/day', least: 0.1, most: 5000 },
  ratedC: { unit: '°C', least: 5, most: 40 },
  ratedRh: { unit: '%', least: 20, most: 100 },
  dehumidifierKW: { unit: 'kW', least: 0, most: 200 },
  heaterKW: { unit: 'kW', least: 0.1, most: 500 },
  fanM3: { unit: 'm³/h', least: 10, most: 200_000 },
  fanKW: { unit: 'kW', least: 0, most: 50 },
  shellLoss: { unit: 'W/K', least: 0, most: 100_000 },
} as const satisfies Record<string, FieldSpec>

export const priceFields = {
  heatPrice: { unit: words.perKWh, least: 0, most: 1000 },
  electricityPrice: { unit: words.perKWh, least: 0, most: 1000 },
  dehumidifierDay: { unit: words.perDay, least: 0, most: 1e6 },
  heaterDay: { unit: words.perDay, least: 0, most: 1e6 },
  fanDay: { unit: words.perDay, least: 0, most: 1e6 },
  delayDay: { unit: words.perDay, least: 0, most: 1e7 },
} as const satisfies Record<string, FieldSpec>

const fields: Record<FieldName, FieldSpec> = { ...roomFields, ...machineFields, ...priceFields }
export type FieldName = keyof typeof roomFields | keyof typeof machineFields | keyof typeof priceFields
const fieldNames = Object.keys(fields) as FieldName[]

/** What stands in the boxes, as typed. */
export interface PlanDraft {
  typed: Record<FieldName, string>
  kind: DehumidifierKind
  ways: readonly WayId[]
}

export const firstDraft: PlanDraft = {
  typed: Object.fromEntries(fieldNames.map((name) => [name, fields[name].first ?? ''])) as PlanDraft['typed'],
  kind: 'condensing',
  ways: ['wait', 'ventilate', 'heat', 'dehumidify', 'heat and dehumidify', 'floor heating'],
}

/** The rated air of a kind of machine where nobody typed another: that of most data sheets (common practice). */
export const usualRated = {
  condensing: { airC: 30, rhPercent: 80 },
  desiccant: { airC: 20, rhPercent: 60 },
} as const satisfies Record<DehumidifierKind, Machines['dehumidifier']['rated']>

export interface PlanReading {
  /** Null while a box of the room is wrong. */
  plan: RoomPlan | null
  machines: Machines
  prices: Prices
  wrong: Partial<Record<FieldName, string>>
}

/** Reads the boxes. A wrong box of a machine or a price counts as blank, and says what is wrong with it. */
export function readPlan({ typed, kind }: PlanDraft): PlanReading {
  const wrong: PlanReading['wrong'] = {}
  const read = (name: FieldName): number | null => {
    const { least, most, unit, first } = fields[name]
    const got = numberFromTyped(typed[name])
    if (got.kind === 'empty') {
      if (first === undefined) return null
      wrong[name] = words.form.notNumber(words.fields[name])
      return null
    }
    if (got.kind === 'not a number') wrong[name] = words.form.notNumber(words.fields[name])
    else if (got.value < least || got.value > most)
      wrong[name] = words.form.outside(words.fields[name], numberText(least), numberText(most), unit)
    else return got.value
    return null
  }
  const [outdoorC, outdoorRh] = [read('outdoorC'), read('outdoorRh')]
  if ((outdoorC === null) !== (outdoorRh === null))
    wrong[outdoorC === null ? 'outdoorC' : 'outdoorRh'] ??= words.form.outdoorBoth
  const room = {
    heightM: read('heightM'),
    airChangesPerH: read('airChanges'),
    heatToC: read('heatToC'),
    dryToRhPercent: read('dryToRh'),
    heatedScreedC: read('heatedScreedC'),
  }
  const shutAirChangesPerH = read('shutAirChanges')
  const roomIsWrong = Object.keys(roomFields).some((name) => wrong[name as FieldName] !== undefined)
  return {
    plan: roomIsWrong
      ? null
      : {
          ...(room as Record<keyof typeof room, number>),
          outdoor: outdoorC === null || outdoorRh === null ? null : { airC: outdoorC, rhPercent: outdoorRh },
          shutAirChangesPerH,
        },
    machines: {
      shellLossWPerK: read('shellLoss'),
      heaterKW: read('heaterKW'),
      dehumidifier: {
        kind,
        kgPerDay: read('dehumidifierKg'),
        rated: {
          airC: read('ratedC') ?? usualRated[kind].airC,
          rhPercent: read('ratedRh') ?? usualRated[kind].rhPercent,
        },
        kW: read('dehumidifierKW'),
      },
      fan: { m3PerH: read('fanM3'), kW: read('fanKW') },
    },
    prices: {
      heatPerKWh: read('heatPrice'),
      electricityPerKWh: read('electricityPrice'),
      heaterPerDay: read('heaterDay'),
      dehumidifierPerDay: read('dehumidifierDay'),
      fanPerDay: read('fanDay'),
      dayOfDelay: read('delayDay'),
    },
    wrong,
  }
}

/** Returns what was kept on this machine as a draft, as far as it still fits; else the first values. */
export function draftFromKept(kept: string | null): PlanDraft {
  if (kept === null) return firstDraft
  let read: unknown
  try {
    read = JSON.parse(kept)
  } catch (cause) {
    // Somebody else wrote there; the first values stand again.
    if (cause instanceof SyntaxError) return firstDraft
    throw cause
  }
  const { typed, kind, ways } = (read ?? {}) as { [K in keyof PlanDraft]?: unknown }
  const texts = (typed ?? {}) as Record<string, unknown>
  const known = Array.isArray(ways) ? wayIds.filter((way) => ways.includes(way)) : firstDraft.ways
  return {
    typed: Object.fromEntries(
      fieldNames.map((name) => {
        const text = texts[name]
        return [name, typeof text === 'string' ? text.slice(0, 20) : firstDraft.typed[name]]
      }),
    ) as PlanDraft['typed'],
    kind: kind === 'desiccant' ? 'desiccant' : 'condensing',
    ways: known.length === 0 ? firstDraft.ways : known,
  }
}
