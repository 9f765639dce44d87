import { type Column, type FaceExchange, fillColumn, makeColumn, solveStep, waterKgM2 } from './column.ts'
import type { Exposure } from './exposure.ts'
import { hydrationGate, selfDesiccation } from './hydration.ts'
import { type Material, tableOf } from './materials.ts'
import { capacityAt, waterAt } from './tables.ts'

/** A bay on its way: its column, its age and what has left it. */
export interface Bay {
  column: Column
  selfDesiccationDrop: number
  /** Multiplier of moisture conductivity: 1 is the material's own. */
  kappa: number
  /** Age as hours of hydration at 20 °C count it [s]. */
  equivalentAgeS: number
  evaporatedKgM2: number
  boundKgM2: number
}

export const CELLS = 40
const TOLERANCE = 1e-7
const MOST_ITERATIONS = 25
/** Below this an hour's self-desiccation is noise. */
const LEAST_DROP = 1e-9

/** Returns a bay at the end of laying, full of water to the material's start or to `startRhPercent`. */
export function layBay(parts: {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  kappa?: number
  startRhPercent?: number
  cells?: number
}): Bay {
  const { constants } = parts.material
  const table = tableOf(parts.material)
  const column = makeColumn(table, parts.thicknessMm / 1000, parts.faces, parts.cells ?? CELLS)
  const h = (parts.startRhPercent ?? constants.startRhPercent.value) / 100
  fillColumn(column, h, waterAt(table, h))
  return {
    column,
    selfDesiccationDrop: constants.selfDesiccationDrop.value,
    kappa: parts.kappa ?? 1,
    equivalentAgeS: 0,
    evaporatedKgM2: 0,
    boundKgM2: 0,
  }
}

/** Ages a bay under its curing sheet: nothing leaves, and what hydration takes is already in the start humidity. */
export function cureFor(bay: Bay, seconds: number, hydration: number): void {
  bay.equivalentAgeS += seconds * hydration
}

/** Books the water that cement binds during a step in each cell's `gain`. */
function bindWater(bay: Bay, seconds: number, hydration: number): void {
  const { column } = bay
  column.gain.fill(0)
  const before = selfDesiccation(bay.equivalentAgeS, bay.selfDesiccationDrop)
  bay.equivalentAgeS += seconds * hydration
  const drop = selfDesiccation(bay.equivalentAgeS, bay.selfDesiccationDrop) - before
  if (drop < LEAST_DROP) return
  for (let i = 1; i <= column.cells; i++) {
    const h = column.h[i]!
    const bound = capacityAt(column.table, h) * drop * hydrationGate(h) * column.widthM[i]!
    column.gain[i] = -bound
    bay.boundKgM2 += bound
  }
}

/** Where the layer is not at one temperature: conductance by gap, and vapour that flows from warm to cold. */
export interface TemperatureEffects {
  transport: Float64Array
  /** Vapour driven up through each gap by temperature [kg/(m² s)]. */
  upwardKgM2s: Float64Array
}

/** Moves a bay forward one implicit (backward Euler) step under the mean exposure of that step. */
export function dryFor(
  bay: Bay,
  seconds: number,
  exposure: Exposure,
  lowerFace: FaceExchange | null,
  effects?: TemperatureEffects,
): void {
  const { column } = bay
  const { gapFactor, inverseGap, gain, from, water, cells, h } = column
  bindWater(bay, seconds, exposure.hydration)
  const top = { pull: exposure.pull, push: exposure.push }
  const uniform = bay.kappa * exposure.transport
  if (effects === undefined) for (let i = 0; i <= cells; i++) gapFactor[i] = uniform * inverseGap[i]!
  else {
    for (let i = 0; i < cells; i++) {
      gapFactor[i] = bay.kappa * effects.transport[i]! * inverseGap[i]!
      const carried = effects.upwardKgM2s[i]!
      if (i > 0) gain[i]! += carried * seconds
      gain[i + 1]! -= carried * seconds
    }
    gapFactor[cells] = 0
    top.push += effects.upwardKgM2s[0]!
  }
  from.set(water)
  const bottom = column.bothFaces ? (lowerFace ?? top) : { pull: 0, push: 0 }
  solveStep(column, seconds, top, bottom, TOLERANCE, MOST_ITERATIONS)
  bay.evaporatedKgM2 += seconds * (exposure.pull * h[0]! - exposure.push)
  if (column.bothFaces) bay.evaporatedKgM2 += seconds * (bottom.pull * h[cells + 1]! - bottom.push)
}

/** Returns the mean water of a bay [kg/m³]. */
export function meanWater(bay: Bay): number {
  return waterKgM2(bay.column) / bay.column.lengthM
}
