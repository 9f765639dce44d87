import { hourMs } from '#model/time.ts'
import type { ConstantClimate } from '../climate.ts'
import { fillColumn } from '../column.ts'
import { exposureOf, meanExposure, noExposure } from '../exposure.ts'
import type { Middle } from '../forecast/drivers.ts'
import type { Prepared } from '../forecast/question.ts'
import { type Bay, dryFor, layBay } from '../march.ts'
import { humidityOfWater, waterAt } from '../tables.ts'

/** Returns the bay that stands for the middle of what was learned, as it is now or when its curing ends. */
export function middleBay(prepared: Prepared, middle: Middle): Bay {
  const bay = layBay({ ...prepared, kappa: middle.kappa })
  const { table } = bay.column
  const start = waterAt(table, prepared.material.constants.startRhPercent.value / 100)
  const h = humidityOfWater(table, start * middle.wetness)
  fillColumn(bay.column, h, waterAt(table, h))
  bay.equivalentAgeS = prepared.ageAtDryS
  const exposure = noExposure()
  for (let at = prepared.dryMs; at < prepared.turnMs - 1; at += hourMs) {
    const to = Math.min(at + hourMs, prepared.turnMs)
    dryFor(bay, (to - at) / 1000, meanExposure(prepared.past, at, to, exposure), null)
  }
  return bay
}

/** Returns the water that a bay gives to constant air on each of the coming days [kg/m²]; the bay itself is left as it is. */
export function waterAhead(
  bay: Bay,
  air: Required<ConstantClimate>,
  { skinSdM }: Prepared,
  days: number,
): number[] {
  const ahead = copyOf(bay)
  const exposure = exposureOf(air, skinSdM)
  return Array.from({ length: days }, () => {
    const before = ahead.evaporatedKgM2
    for (let hour = 0; hour < 24; hour++) dryFor(ahead, 3600, exposure, null)
    return ahead.evaporatedKgM2 - before
  })
}

/** A bay whose state can be changed without changing the first; what the solver overwrites anyway is shared. */
function copyOf(bay: Bay): Bay {
  const { h, water } = bay.column
  return { ...bay, column: { ...bay.column, h: h.slice(), water: water.slice() } }
}
