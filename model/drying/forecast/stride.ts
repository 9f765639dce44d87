import { type Column, solveStep } from '../column.ts'
import { hydrationGate } from '../hydration.ts'
import { capacityAt } from '../tables.ts'

/**
 * A column that takes long steps: second-order backward differences (BDF2) with the step before remembered.
 * Mass closes as in `solveStep`, because water is combined, not pore humidity.
 */
export interface Strider {
  column: Column
  beforeWater: Float64Array
  beforeH: Float64Array
  /** Length of the step before [s]; 0 after a shock, when the next step is backward Euler. */
  beforeSeconds: number
}

const TOLERANCE = 3e-5
const MOST_ITERATIONS = 12
/** BDF2 is stable while a step is less than 2.4 times the one before. */
const LARGEST_RATIO = 2
const noFlux = { pull: 0, push: 0 }
const face = { pull: 0, push: 0 }

export function makeStrider(column: Column): Strider {
  return {
    column,
    beforeWater: new Float64Array(column.cells + 2),
    beforeH: new Float64Array(column.cells + 2),
    beforeSeconds: 0,
  }
}

/** Moves one long step forward. `factor` is the conductivity multiplier of the step, temperature included. */
export function stride(
  strider: Strider,
  seconds: number,
  factor: number,
  pull: number,
  push: number,
  drop: number,
): void {
  const { column, beforeWater, beforeH } = strider
  const { cells, h, water, from, gain, gapFactor, inverseGap, widthM, bothFaces } = column
  const nodes = cells + 2
  const ratio = strider.beforeSeconds === 0 ? 0 : seconds / strider.beforeSeconds
  const second = ratio > 0 && ratio <= LARGEST_RATIO
  const scale = second ? 1 / (1 + 2 * ratio) : 1
  const weight = second ? (1 + ratio) * scale : 1
  const now = second ? (1 + ratio) ** 2 * scale : 1
  const before = second ? ratio * ratio * scale : 0
  for (let i = 0; i <= cells; i++) gapFactor[i] = factor * inverseGap[i]!
  for (let i = 1; i <= cells; i++) {
    from[i] = now * water[i]! - before * beforeWater[i]!
    gain[i] =
      drop < 1e-7 ? 0 : -weight * capacityAt(column.table, h[i]!) * drop * hydrationGate(h[i]!) * widthM[i]!
  }
  for (let i = 0; i < nodes; i++) {
    const here = h[i]!
    if (second) h[i] = Math.min(1, Math.max(0.02, here + ratio * (here - beforeH[i]!)))
    beforeH[i] = here
    beforeWater[i] = water[i]!
  }
  face.pull = pull
  face.push = push
  solveStep(column, seconds * weight, face, bothFaces ? face : noFlux, TOLERANCE, MOST_ITERATIONS)
  strider.beforeSeconds = seconds
}

/** A copy of where a strider stands. */
export interface Footprint {
  h: Float64Array
  water: Float64Array
  beforeH: Float64Array
  beforeWater: Float64Array
  beforeSeconds: number
}

export function footprint(strider: Strider): Footprint {
  const { column, beforeH, beforeWater, beforeSeconds } = strider
  return {
    h: column.h.slice(),
    water: column.water.slice(),
    beforeH: beforeH.slice(),
    beforeWater: beforeWater.slice(),
    beforeSeconds,
  }
}

export function returnTo(strider: Strider, mark: Footprint): void {
  strider.column.h.set(mark.h)
  strider.column.water.set(mark.water)
  strider.beforeH.set(mark.beforeH)
  strider.beforeWater.set(mark.beforeWater)
  strider.beforeSeconds = mark.beforeSeconds
}
