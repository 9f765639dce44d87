import { absoluteHumidityGPerM3 } from '#model/air/index.ts'
import type { Chance } from './chance.ts'
import { dayMs, hourMs } from './site-clock.ts'

/** Hourly outside air and the air in the building; parallel arrays from `from`, one value an hour. */
export interface Weather {
  from: number
  outsideC: number[]
  outsideRhPercent: number[]
}

/**
 * An invented winter: mean near 4 °C, a daily swing, and spells that last days (first-order autoregression).
 * `coldNights` push single nights below zero. It is weather for a demonstration, not for any place.
 */
export function inventWinter(
  chance: Chance,
  from: number,
  until: number,
  coldNights: { at: number; lowestC: number }[],
): Weather {
  const hours = Math.ceil((until - from) / hourMs) + 1
  const outsideC: number[] = []
  const outsideRhPercent: number[] = []
  let spell = 0
  for (let i = 0; i < hours; i++) {
    const at = from + i * hourMs
    spell = spell * 0.99 + chance.noise(0.35)
    const hourOfDay = (at % dayMs) / hourMs
    const swing = 2.5 * Math.cos(((hourOfDay - 14.5) / 24) * 2 * Math.PI)
    const mild = Math.max(-2, 5 + spell + swing)
    const cold = coldNights.find((night) => Math.abs(at - night.at) < 9 * hourMs)
    const depth = cold === undefined ? 0 : Math.cos((Math.abs(at - cold.at) / (9 * hourMs)) * (Math.PI / 2))
    outsideC.push(cold === undefined ? mild : mild + (cold.lowestC - mild) * depth)
    outsideRhPercent.push(Math.min(97, Math.max(60, 84 - 3 * swing + chance.noise(2))))
  }
  return { from, outsideC, outsideRhPercent }
}

/** How a room is kept: its set temperature, how well it holds it, and the water its trades give off. */
export interface RoomKeeping {
  setC: number
  /** Part of the outside swing that comes through, 0 to 1. */
  leak: number
  /** Moisture above the outside air [g/m³]. */
  moistureGPerM3: number
  /** Hours in which the heater was off. */
  heaterOff?: { from: number; until: number; leak: number }
}

export interface RoomAir {
  at: number[]
  airC: number[]
  rhPercent: number[]
}

/** The air of one room from the weather outside and how it is kept; humidity follows from the water in the air. */
export function roomAir(
  weather: Weather,
  keeping: RoomKeeping,
  from: number,
  until: number,
  chance: Chance,
): RoomAir {
  const room: RoomAir = { at: [], airC: [], rhPercent: [] }
  let airC = keeping.setC
  for (let at = Math.ceil(from / hourMs) * hourMs; at <= until; at += hourMs) {
    const i = Math.round((at - weather.from) / hourMs)
    const outsideC = weather.outsideC[i]!
    const off = keeping.heaterOff
    const leak = off !== undefined && at >= off.from && at < off.until ? off.leak : keeping.leak
    const wantedC = keeping.setC + leak * (outsideC - keeping.setC)
    airC += (wantedC - airC) * 0.35
    const waterGPerM3 =
      absoluteHumidityGPerM3(outsideC, weather.outsideRhPercent[i]!) + keeping.moistureGPerM3
    const fullGPerM3 = absoluteHumidityGPerM3(airC, 100)
    room.at.push(at)
    room.airC.push(airC + chance.noise(0.1))
    room.rhPercent.push(Math.min(96, Math.max(25, (100 * waterGPerM3) / fullGPerM3 + chance.noise(0.6))))
  }
  return room
}

/**
 * Temperature in the screed: the room's, slowed by the layer (a few hours), with a small warming of setting on the
 * first day. Enough for a demonstration; the drying model has its own account of heat.
 */
export function screedTemperature(
  room: RoomAir,
  laidAt: number,
  pull = { from: 0, until: 0, toC: 0 },
): number[] {
  let screedC = 12
  return room.at.map((at, i) => {
    const settingC = 2.5 * Math.exp(-(((at - laidAt) / hourMs - 10) ** 2) / 72)
    const cold = at >= pull.from && at < pull.until
    const towards = cold ? pull.toC : room.airC[i]! + settingC
    screedC += (towards - screedC) * (cold ? 0.35 : 0.2)
    return screedC
  })
}
