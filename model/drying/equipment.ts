import { saturationPressurePa } from '../air/index.ts'
import { requireNumber } from '../errors.ts'
import type { Why } from '../why.ts'

const PRESSURE_PA = 101_325
const AIR_DENSITY_KG_M3 = 1.2
const AIR_HEAT_KJ_KG_K = 1.006
const EVAPORATION_MJ_KG = 2.45
const DAY_S = 86_400
/** What a dehumidifier takes at 20 °C and 60 %, as a share of its nameplate at 30 °C and 80 %. */
const NAMEPLATE_SHARE = { low: 0.4, high: 0.5 }

export interface AirState {
  airC: number
  rhPercent: number
}

/** Returns the water in air [kg per kg of dry air] at sea level. */
export function humidityRatio({ airC, rhPercent }: AirState): number {
  const vapourPa = (rhPercent / 100) * saturationPressurePa(airC)
  return (0.62198 * vapourPa) / (PRESSURE_PA - vapourPa)
}

export interface Equipment {
  /** Outdoor air needed to carry the water off [m³/h]; null when outdoor air is as damp as the room. */
  ventilationM3PerH: number | null
  /** To warm that air to the room [kW]; null with it. */
  ventilationHeatKW: number | null
  /** Heat that the evaporation itself takes [kW]. */
  evaporationHeatKW: number
  /** Dehumidifier capacity to order, as makers rate it at 30 °C and 80 % [kg/day]. */
  dehumidifierNameplateKgPerDay: { low: number; high: number }
  advice: string
  why: Why[]
}

/**
 * Returns what it takes to remove a load of water from a room, by outdoor air or by dehumidifier.
 * Ventilation: dry air flow = load / difference of humidity ratio. A dehumidifier at 20 °C and 60 % takes about
 * 40–50 % of its nameplate. Air that leaks in and other wet trades are not counted.
 * @param args.loadKgPerDay water to remove [kg/day], 0–100 000
 * @param args.room and `outdoor` air [°C, % RH]
 * @errors InputError naming the field
 * @source mass and heat balance; nameplate share our judgement
 * @provenance our judgement
 */
export function equipmentFor({
  loadKgPerDay,
  room,
  outdoor,
}: {
  loadKgPerDay: number
  room: AirState
  outdoor: AirState
}): Equipment {
  requireNumber('loadKgPerDay', loadKgPerDay, 0, 100_000, 'kg/day')
  for (const [field, air] of [
    ['room', room],
    ['outdoor', outdoor],
  ] as const) {
    requireNumber(`${field}.airC`, air?.airC, -40, 60, '°C')
    requireNumber(`${field}.rhPercent`, air.rhPercent, 0, 100, '% RH')
  }
  const gain = humidityRatio(room) - humidityRatio(outdoor)
  const loadKgS = loadKgPerDay / DAY_S
  const carries = gain > 0.0002
  const dryAirKgS = carries ? loadKgS / gain : null
  const ventilationM3PerH = dryAirKgS === null ? null : (dryAirKgS / AIR_DENSITY_KG_M3) * 3600
  const ventilationHeatKW =
    dryAirKgS === null ? null : dryAirKgS * AIR_HEAT_KJ_KG_K * Math.max(0, room.airC - outdoor.airC)
  const nameplate = { low: loadKgPerDay / NAMEPLATE_SHARE.high, high: loadKgPerDay / NAMEPLATE_SHARE.low }
  const inputs: Why['inputs'] = [
    { name: 'load', value: loadKgPerDay, unit: 'kg/day' },
    { name: 'room', value: room.airC, unit: '°C' },
    { name: 'room', value: room.rhPercent, unit: '% RH' },
    { name: 'outdoors', value: outdoor.airC, unit: '°C' },
    { name: 'outdoors', value: outdoor.rhPercent, unit: '% RH' },
  ]
  return {
    ventilationM3PerH,
    ventilationHeatKW,
    evaporationHeatKW: loadKgS * EVAPORATION_MJ_KG * 1e3,
    dehumidifierNameplateKgPerDay: nameplate,
    advice: carries
      ? 'Outdoor air can carry the water off; warm it to keep the room dry.'
      : 'Outdoor air is as damp as the room: keep it shut and dehumidify.',
    why: [
      {
        what: 'outdoor air',
        value: ventilationM3PerH,
        unit: 'm³/h',
        inputs,
        formula: 'load / (W room − W outdoors) / 1.2 kg/m³',
        source: 'balance of water vapour, 1013 hPa',
        provenance: 'published',
      },
      {
        what: 'heat for that air',
        value: ventilationHeatKW,
        unit: 'kW',
        inputs,
        formula: 'air flow × 1.006 kJ/(kg K) × (room − outdoors)',
        source: 'heat balance',
        provenance: 'published',
      },
      {
        what: 'dehumidifier nameplate, at most',
        value: nameplate.high,
        unit: 'kg/day',
        inputs,
        formula: 'load / 0.4 to load / 0.5',
        source: 'share of nameplate left at 20 °C and 60 %',
        provenance: 'our judgement',
      },
    ],
  }
}
