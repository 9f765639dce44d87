import { dayMs } from '#model/time.ts'
import { exposureOf, exposureSeries } from '../exposure.ts'
import { tableOf } from '../materials.ts'
import { timeAtLevel } from './dates.ts'
import { runGrid } from './ensemble.ts'
import type { Prepared } from './question.ts'

export interface Driver {
  name: string
  /** Days the middle date moves when the input goes up by one unit. */
  daysPerUnit: number
  unit: string
}

/** The middle of what has been learned, at which the drivers are worked out. */
export interface Middle {
  kappa: number
  wetness: number
  offset: number
}

interface Change {
  thicknessMm?: number
  futureRh?: number
  futureC?: number
  wetness?: number
  level?: number
  skinSdM?: number
}

/** Returns by how many days each input moves the middle date, from runs a little either side. */
export function driversOf(prepared: Prepared, limitValue: number, middle: Middle): Driver[] {
  const level = limitValue - middle.offset
  const daysWith = (change: Change): number => daysToLimit(prepared, middle, level, change)
  const slope = (up: Change, down: Change, half: number) => (daysWith(up) - daysWith(down)) / (2 * half)
  const limitStep = prepared.measure === 'rh' ? 1 : 0.05
  const limitUnit =
    prepared.measure === 'rh' ? '% RH' : prepared.limitGroup === 'carbide' ? '0.1 CM-%' : '0.1 mass %'
  const perUnit = prepared.measure === 'rh' ? 1 : 0.1
  const drivers: Driver[] = [
    {
      name: 'room humidity from now on',
      unit: '% RH',
      daysPerUnit: slope({ futureRh: 1 }, { futureRh: -1 }, 1),
    },
    { name: 'temperature from now on', unit: 'K', daysPerUnit: slope({ futureC: 1 }, { futureC: -1 }, 1) },
    { name: 'thickness', unit: 'mm', daysPerUnit: slope({ thicknessMm: 1 }, { thicknessMm: -1 }, 1) },
    {
      name: 'limit',
      unit: limitUnit,
      daysPerUnit: perUnit * slope({ level: limitStep }, { level: -limitStep }, limitStep),
    },
    {
      name: 'water at the end of curing',
      unit: '% of it',
      daysPerUnit: slope({ wetness: 0.01 }, { wetness: -0.01 }, 1),
    },
    {
      name: 'skin on the face',
      unit: '0.1 m of still air',
      daysPerUnit: daysWith({ skinSdM: 0.1 }) - daysWith({}),
    },
  ]
  return drivers.filter((driver) => Number.isFinite(driver.daysPerUnit))
}

/** Returns the days from `asOf` to the limit for one run; infinity when it is not reached. */
function daysToLimit(prepared: Prepared, middle: Middle, level: number, change: Change): number {
  const wanted = level + (change.level ?? 0)
  const skin = prepared.skinSdM + (change.skinSdM ?? 0)
  const air = {
    ...prepared.futureAir,
    rhPercent: Math.min(99, Math.max(5, prepared.futureAir.rhPercent + (change.futureRh ?? 0))),
    airC: prepared.futureAir.airC + (change.futureC ?? 0),
    screedC: prepared.futureAir.screedC + (change.futureC ?? 0),
  }
  const ensemble = runGrid({
    ...prepared,
    thicknessMm: prepared.thicknessMm + (change.thicknessMm ?? 0),
    past:
      change.skinSdM === undefined
        ? prepared.past
        : exposureSeries(prepared.pastHourly, skin, tableOf(prepared.material)),
    future: exposureOf(air, skin),
    sights: [],
    kappas: [middle.kappa],
    wetness: [middle.wetness + (change.wetness ?? 0)],
    rhShifts: [0],
    stopRhPercent: prepared.measure === 'rh' ? wanted - 0.5 : Number.POSITIVE_INFINITY,
    stopMassPercent: prepared.measure === 'mass' ? wanted - 0.02 : Number.POSITIVE_INFINITY,
  })
  return (timeAtLevel(ensemble, ensemble.runs[0]!, 0, prepared.measure, wanted) - prepared.asOfMs) / dayMs
}
