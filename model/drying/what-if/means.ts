import { dewPointC, saturationPressurePa } from '../../air/index.ts'
import { requireNumber } from '../../errors.ts'
import type { Why } from '../../why.ts'
import type { AirState } from '../humidity-ratio.ts'
import { dryAirKgPerH } from './room-air.ts'
import type { RoomFacts, WayFound, WayId } from './shapes.ts'

const AIR_HEAT_KJ_PER_KG_K = 1.006
const EVAPORATION_MJ_PER_KG = 2.45
const DAY_S = 86_400
/** A cup of water a day calls for no machine. */
const LEAST_LOAD_KG_PER_DAY = 0.2

export type DehumidifierKind = 'condensing' | 'desiccant'

/** The machines that a firm has or hires, from their data sheets. Null: not typed. */
export interface Machines {
  /** Heat through walls, windows and roof of the room [W/K]. */
  shellLossWPerK: number | null
  /** Heat that one heater gives [kW]. */
  heaterKW: number | null
  dehumidifier: {
    kind: DehumidifierKind
    /** What one takes at its rated air [kg/day]. */
    kgPerDay: number | null
    rated: AirState
    kW: number | null
  }
  /** Air that one fan moves [m³/h] and what it draws [kW]; null: windows and doors are opened, no fan. */
  fan: { m3PerH: number | null; kW: number | null }
}

/** More heat than by waiting [kW]. */
export interface ExtraHeat {
  airKW: number
  evaporationKW: number
  /** Null: the loss of the shell is not known, and the total is a least. */
  shellKW: number | null
  totalKW: number
}

export interface Drying {
  /** Water that the machines must take: from the floor and from air that leaks in [kg/day]. */
  loadKgPerDay: number
  /** What a machine takes in this room against its rated air [-]. */
  share: number
  /** Capacity to order, at the rated air [kg/day]. */
  ratedKgPerDay: number
  units: number | null
  /** Why this kind of machine does not work in this room; null when it does. */
  unsuitable: string | null
}

export interface WayMeans {
  /** Outdoor air through the room [m³/h]; null where nothing is opened. */
  airM3PerH: number | null
  /** 0: windows and doors. */
  fans: number | null
  heat: ExtraHeat | null
  heaters: number | null
  drying: Drying | null
  why: { air: Why | null; heat: Why | null; drying: Why | null }
}

const ventilates: readonly WayId[] = ['ventilate', 'heat and ventilate', 'floor heating']
const driesAir: readonly WayId[] = ['dehumidify', 'heat and dehumidify']

/**
 * Returns what a way takes: air, heat and machines, over and above waiting.
 * @errors InputError naming the field of a machine that is impossible
 * @source balances of heat and water vapour; share of a rated capacity see `shareOfRated`
 * @provenance our judgement
 */
export function meansOfWay(way: WayFound, waiting: WayFound, room: RoomFacts, machines: Machines): WayMeans {
  const none: WayMeans = {
    airM3PerH: null,
    fans: null,
    heat: null,
    heaters: null,
    drying: null,
    why: { air: null, heat: null, drying: null },
  }
  if (way.way === 'wait') return none
  const isDrying = driesAir.includes(way.way)
  const airM3PerH =
    ventilates.includes(way.way) && way.airChangesPerH !== null ? way.airChangesPerH * room.volumeM3 : null
  const heat = way.way === 'dehumidify' ? null : extraHeat(way, waiting, room, machines)
  const drying = isDrying ? dryingBy(way, machines) : null
  const { heaterKW, fan } = machines
  const heatedByFloor = way.way === 'floor heating'
  return {
    airM3PerH,
    fans: airM3PerH === null ? null : fan.m3PerH === null ? 0 : unitsFor(airM3PerH, 'fan.m3PerH', fan.m3PerH),
    heat,
    heaters:
      heat === null || heatedByFloor
        ? null
        : heaterKW === null
          ? null
          : unitsFor(heat.totalKW, 'heaterKW', heaterKW),
    drying,
    why: {
      air: airM3PerH === null ? null : whyAir(airM3PerH, way, room),
      heat: heat === null ? null : whyHeat(heat, way, waiting, room, machines),
      drying: drying === null ? null : whyDrying(drying, way, machines),
    },
  }
}

function unitsFor(need: number, field: string, each: number): number {
  return Math.max(0, Math.ceil(need / requireNumber(field, each, 0.01, 1e6) - 1e-9))
}

/**
 * Returns what a machine takes in a room against its rated capacity, as the water vapour in their air.
 * At 20 °C and 60 % a machine rated at 30 °C and 80 % takes 0.41 of it; the trade reckons with 0.4 to 0.5.
 * @source proportional to the vapour pressure of the air that enters
 * @provenance our judgement: the maker's curve comes first
 */
export function shareOfRated(room: AirState, rated: AirState): number {
  const vapourPa = ({ airC, rhPercent }: AirState) => (rhPercent / 100) * saturationPressurePa(airC)
  requireNumber('dehumidifier.rated.airC', rated.airC, 5, 40, '°C')
  requireNumber('dehumidifier.rated.rhPercent', rated.rhPercent, 20, 100, '% RH')
  return vapourPa(room) / vapourPa(rated)
}

function dryingBy({ room, water }: WayFound, { dehumidifier }: Machines): Drying {
  const load = water.sizingKgPerDay + (water.leakKgPerDay ?? 0)
  const loadKgPerDay = load < LEAST_LOAD_KG_PER_DAY ? 0 : load
  const share = shareOfRated(room, dehumidifier.rated)
  const ratedKgPerDay = loadKgPerDay / share
  const { kgPerDay } = dehumidifier
  return {
    loadKgPerDay,
    share,
    ratedKgPerDay,
    units: kgPerDay === null ? null : unitsFor(ratedKgPerDay, 'dehumidifier.kgPerDay', kgPerDay),
    unsuitable: dehumidifier.kind === 'condensing' ? coldCoil(room) : null,
  }
}

/** Below these a coil ices over instead of dripping (common practice). */
const coldestRoomC = 8
const lowestDewPointC = 3

function coldCoil(room: AirState): string | null {
  const dewPoint = dewPointC(room.airC, room.rhPercent)
  if (room.airC >= coldestRoomC && dewPoint >= lowestDewPointC) return null
  return `At ${room.airC.toFixed(0)} °C and ${room.rhPercent.toFixed(0)} % (dew point ${dewPoint.toFixed(0)} °C) a condensing machine ices over: take a desiccant one or warm the room.`
}

/** Heat over and above waiting: the air that must be warmed, what evaporates more, what the shell loses more. */
function extraHeat(
  way: WayFound,
  waiting: WayFound,
  { volumeM3, outdoor, shutAirChangesPerH }: RoomFacts,
  { shellLossWPerK }: Machines,
): ExtraHeat {
  const airHeat = (room: AirState, airChangesPerH: number) =>
    outdoor === null
      ? 0
      : (dryAirKgPerH({ volumeM3, airChangesPerH, room }) / 3600) *
        AIR_HEAT_KJ_PER_KG_K *
        Math.max(0, room.airC - outdoor.value.airC)
  const shut = shutAirChangesPerH.value
  const airKW = Math.max(0, airHeat(way.room, way.airChangesPerH ?? shut) - airHeat(waiting.room, shut))
  const more = Math.max(0, way.water.firstWeekKgPerDay - waiting.water.firstWeekKgPerDay)
  const evaporationKW = (more / DAY_S) * EVAPORATION_MJ_PER_KG * 1000
  const warmerK = Math.max(0, way.room.airC - waiting.room.airC)
  const shellKW = warmerK < 0.05 ? 0 : shellLossWPerK === null ? null : (shellLossWPerK * warmerK) / 1000
  return { airKW, evaporationKW, shellKW, totalKW: airKW + evaporationKW + (shellKW ?? 0) }
}

function whyAir(airM3PerH: number, way: WayFound, room: RoomFacts): Why {
  return {
    what: 'outdoor air through the room',
    value: airM3PerH,
    unit: 'm³/h',
    inputs: [
      { name: 'volume', value: room.volumeM3, unit: 'm³' },
      { name: 'air changes', value: way.airChangesPerH, unit: '1/h' },
      { name: 'water it carries off', value: -(way.water.leakKgPerDay ?? 0), unit: 'kg/day' },
    ],
    formula: 'volume × air changes',
    source: 'air changes as typed on this page',
    provenance: 'our judgement',
  }
}

function whyHeat(
  heat: ExtraHeat,
  way: WayFound,
  waiting: WayFound,
  room: RoomFacts,
  { shellLossWPerK }: Machines,
): Why {
  return {
    what: heat.shellKW === null ? 'heat over waiting, at least' : 'heat over waiting',
    value: heat.totalKW,
    unit: 'kW',
    inputs: [
      { name: 'room', value: way.room.airC, unit: '°C' },
      { name: 'room by waiting', value: waiting.room.airC, unit: '°C' },
      { name: 'outdoors', value: room.outdoor?.value.airC ?? null, unit: '°C' },
      { name: 'volume', value: room.volumeM3, unit: 'm³' },
      { name: 'air changes', value: way.airChangesPerH, unit: '1/h' },
      { name: 'air changes by waiting', value: room.shutAirChangesPerH.value, unit: '1/h' },
      { name: 'to warm the air', value: heat.airKW, unit: 'kW' },
      { name: 'to evaporate more', value: heat.evaporationKW, unit: 'kW' },
      { name: 'loss of walls and windows', value: shellLossWPerK, unit: 'W/K' },
      { name: 'through walls and windows', value: heat.shellKW, unit: 'kW' },
    ],
    formula:
      'air × 1.006 kJ/(kg K) × (room − outdoors), less the same by waiting; + more water × 2.45 MJ/kg; + loss × (room − room by waiting)',
    source: 'heat balance',
    provenance: 'published',
  }
}

function whyDrying(drying: Drying, way: WayFound, { dehumidifier }: Machines): Why {
  return {
    what: 'dehumidifying capacity to order, at its rated air',
    value: drying.ratedKgPerDay,
    unit: 'kg/day',
    inputs: [
      { name: 'water from the floor', value: way.water.sizingKgPerDay, unit: 'kg/day' },
      { name: 'brought by air that leaks in', value: way.water.leakKgPerDay, unit: 'kg/day' },
      { name: 'room', value: way.room.airC, unit: '°C' },
      { name: 'humidity', value: way.room.rhPercent, unit: '% RH' },
      { name: 'rated at', value: dehumidifier.rated.airC, unit: '°C' },
      { name: 'rated at humidity', value: dehumidifier.rated.rhPercent, unit: '% RH' },
      { name: 'share left in this room', value: drying.share, unit: '-' },
      { name: 'one machine, rated', value: dehumidifier.kgPerDay, unit: 'kg/day' },
    ],
    formula:
      '(water from the floor + water that leaks in) / share; share = vapour pressure of the room / of the rated air',
    source:
      'the maker’s curve comes first; 0.4 to 0.5 of a rating at 30 °C and 80 % is left at 20 °C and 60 %',
    provenance: 'our judgement',
  }
}
