import { saturationPressurePa } from '../../air/index.ts'
import { requireNumber } from '../../errors.ts'
import { type AirState, humidityRatio } from '../humidity-ratio.ts'

const PRESSURE_PA = 101_325
const DRY_AIR_GAS_CONSTANT = 287.042 // J/(kg K)
const ZERO_C_IN_K = 273.15
const DRIEST_PERCENT = 1
const DAMPEST_PERCENT = 99.5

/**
 * Returns the dry air in a cubic metre of moist air [kg/m³] at sea level.
 * @errors InputError naming the field
 * @source ideal gas law for the dry air at its partial pressure
 * @accuracy 0.1 % of psychrolib 1.1.1 from −10 to 40 °C
 * @provenance published
 */
export function dryAirDensityKgM3({ airC, rhPercent }: AirState): number {
  requireNumber('airC', airC, -40, 60, '°C')
  requireNumber('rhPercent', rhPercent, 0, 100, '% RH')
  const vapourPa = (rhPercent / 100) * saturationPressurePa(airC)
  return (PRESSURE_PA - vapourPa) / (DRY_AIR_GAS_CONSTANT * (ZERO_C_IN_K + airC))
}

export interface AirExchange {
  volumeM3: number
  /** Air of the room replaced by outdoor air [1/h]. */
  airChangesPerH: number
  room: AirState
  outdoor: AirState
}

/** Returns the dry air that passes through a room [kg/h]. */
export function dryAirKgPerH({ volumeM3, airChangesPerH, room }: Omit<AirExchange, 'outdoor'>): number {
  return volumeM3 * airChangesPerH * dryAirDensityKgM3(room)
}

/**
 * Returns the water that an exchange of air carries out of a room [kg/day]; below 0 when outdoor air brings water in.
 * Dry air that passes × difference of humidity ratio × 24 h. The volume counts at the state of the room.
 * @source balance of water vapour and dry air
 * @accuracy against psychrolib 1.1.1: see tests/published
 * @provenance published
 */
export function waterCarriedKgPerDay(exchange: AirExchange): number {
  return 24 * dryAirKgPerH(exchange) * (humidityRatio(exchange.room) - humidityRatio(exchange.outdoor))
}

/**
 * Returns the humidity at which a room carries off as much water as its floor gives to it [% RH].
 * The damper the room, the more the air takes along and the less the floor gives: there is one balance, found by
 * halving. 99.5 when even that is not enough, 1 when outdoor air is drier than any balance.
 * @param args.waterKgPerDay what the floor gives to air of that humidity [kg/day]
 * @source balance of water vapour
 * @provenance our judgement: no other wet work, no water stored in walls
 */
export function balancedRhPercent({
  airC,
  waterKgPerDay,
  ...exchange
}: Omit<AirExchange, 'room'> & { airC: number; waterKgPerDay: (rhPercent: number) => number }): number {
  let low = DRIEST_PERCENT
  let high = DAMPEST_PERCENT
  for (let i = 0; i < 12; i++) {
    const middle = 0.5 * (low + high)
    const carried = waterCarriedKgPerDay({ ...exchange, room: { airC, rhPercent: middle } })
    if (carried < waterKgPerDay(middle)) low = middle
    else high = middle
  }
  return 0.5 * (low + high)
}

/**
 * Returns how often the air of a room is replaced in an hour, from the water its floor gives off and how much damper
 * it is than outdoors [1/h]; null when it is not damper by 0.0002 kg/kg, or the result is not that of a shut room.
 * Other wet work in the room counts as leakage: then it comes out too low.
 * @source balance of water vapour
 * @provenance our judgement
 */
export function airChangesFromBalance({
  volumeM3,
  room,
  outdoor,
  waterKgPerDay,
}: Omit<AirExchange, 'airChangesPerH'> & { waterKgPerDay: number }): number | null {
  if (humidityRatio(room) - humidityRatio(outdoor) < 0.0002 || waterKgPerDay <= 0) return null
  const each = waterCarriedKgPerDay({ volumeM3, room, outdoor, airChangesPerH: 1 })
  const changes = waterKgPerDay / each
  return changes >= 0.02 && changes <= 5 ? changes : null
}
