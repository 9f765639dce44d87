import type { Why } from '../../why.ts'
import type { ConstantClimate } from '../climate.ts'
import { humidityRatio } from '../humidity-ratio.ts'
import { balancedRhPercent, dryAirKgPerH } from './room-air.ts'
import type { RoomFacts, RoomPlan, WayId } from './shapes.ts'
import { type DryingBay, weekMeanKgPerDay } from './water.ts'

export interface RoomOfWay {
  climate: Required<ConstantClimate>
  /** Null where it is not known how much outdoor air comes in. */
  airChangesPerH: number | null
  why: Why | null
}

export interface HeatedStory {
  story: { zone: { body: { heated: boolean } } }
}

interface RoomQuestion {
  way: WayId
  bays: readonly (DryingBay & HeatedStory)[]
  now: Required<ConstantClimate>
  room: RoomFacts
  plan: RoomPlan
}

/** Returns the air that a way gives to the room, or what is missing to know it, by name. */
export function roomOfWay({ way, bays, now, room, plan }: RoomQuestion): RoomOfWay | { lacks: string[] } {
  const shut = room.shutAirChangesPerH.value
  const leak = room.outdoor === null ? null : shut
  const still = { airSpeedMs: now.airSpeedMs }
  const at = (airC: number) => ({ ...still, airC, screedC: airC })
  switch (way) {
    case 'wait':
      return { climate: now, airChangesPerH: null, why: null }
    case 'dehumidify':
      return {
        climate: { ...now, rhPercent: plan.dryToRhPercent },
        airChangesPerH: leak,
        why: whyTyped(plan.dryToRhPercent),
      }
    case 'heat and dehumidify':
      return {
        climate: { ...at(plan.heatToC), rhPercent: plan.dryToRhPercent },
        airChangesPerH: leak,
        why: whyTyped(plan.dryToRhPercent),
      }
    case 'ventilate':
      return balanced({ bays, room, airChangesPerH: plan.airChangesPerH, air: now })
    case 'heat and ventilate':
      return balanced({ bays, room, airChangesPerH: plan.airChangesPerH, air: at(plan.heatToC) })
    case 'heat':
      return balanced({ bays, room, airChangesPerH: shut, air: at(plan.heatToC) })
    case 'floor heating': {
      if (bays.some(({ story }) => !story.zone.body.heated))
        return { lacks: ['Heating in the floor: not every one of these bays has it.'] }
      const air = { ...at(plan.heatToC), screedC: Math.max(plan.heatedScreedC, plan.heatToC) }
      return balanced({ bays, room, airChangesPerH: plan.airChangesPerH, air })
    }
  }
}

function balanced({
  bays,
  room: { volumeM3, outdoor },
  airChangesPerH,
  air,
}: {
  bays: readonly DryingBay[]
  room: RoomFacts
  airChangesPerH: number
  air: Omit<Required<ConstantClimate>, 'rhPercent'>
}): RoomOfWay | { lacks: string[] } {
  if (outdoor === null)
    return { lacks: ['Outdoor air: temperature and humidity. Type them, or read air outside.'] }
  const waterKgPerDay = (rhPercent: number) => weekMeanKgPerDay(bays, { ...air, rhPercent })
  const rhPercent = balancedRhPercent({
    volumeM3,
    airChangesPerH,
    outdoor: outdoor.value,
    airC: air.airC,
    waterKgPerDay,
  })
  const climate = { ...air, rhPercent }
  return {
    climate,
    airChangesPerH,
    why: {
      what: 'humidity of the room in the first week',
      value: rhPercent,
      unit: '% RH',
      inputs: [
        { name: 'room', value: air.airC, unit: '°C' },
        { name: 'volume', value: volumeM3, unit: 'm³' },
        { name: 'air changes', value: airChangesPerH, unit: '1/h' },
        {
          name: 'dry air through the room',
          value: dryAirKgPerH({ volumeM3, airChangesPerH, room: climate }),
          unit: 'kg/h',
        },
        { name: 'outdoors', value: outdoor.value.airC, unit: '°C' },
        { name: 'humidity outdoors', value: outdoor.value.rhPercent, unit: '% RH' },
        { name: 'water in outdoor air', value: 1000 * humidityRatio(outdoor.value), unit: 'g/kg' },
        { name: 'water in the room’s air', value: 1000 * humidityRatio(climate), unit: 'g/kg' },
        { name: 'water from the floor', value: waterKgPerDay(rhPercent), unit: 'kg/day' },
      ],
      formula: 'water from the floor = 24 h × dry air × (water in the room’s air − water in outdoor air)',
      source: 'balance of water vapour at 1013 hPa; no other wet work, no water kept in walls',
      provenance: 'our judgement',
    },
  }
}

function whyTyped(rhPercent: number): Why {
  return {
    what: 'humidity of the room',
    value: rhPercent,
    unit: '% RH',
    inputs: [{ name: 'dried to, as typed', value: rhPercent, unit: '% RH' }],
    formula: 'held by the machine’s humidity control, if it is large enough',
    source: 'typed on this page',
    provenance: 'our judgement',
  }
}
