import { hourMs } from '#model/time.ts'
import { saturationPressurePa } from '../air/index.ts'
import { requireInstant, requireNumber, requireOrdered } from '../errors.ts'
import type { Column } from './column.ts'
import type { Exposure } from './exposure.ts'
import type { TemperatureEffects } from './march.ts'
import type { Material } from './materials.ts'
import { airPermeability, hydrationFactor, transportFactor } from './vapour.ts'

/** From this instant the water in the pipes has this mean temperature; null: the circuit is off. */
export interface HeatingStep {
  at: string | number
  flowC: number | null
}

/** Heat given to the room by a floor at rest: 10.8 W/(m² K), EN 1264-2 order (from memory). */
export const ROOM_TRANSFER = 10.8
/** From the water through pipe and screed around it to the plane of the pipes (our judgement, 150 mm spacing). */
export const PIPE_TRANSFER = 25

/** The temperatures of a heated layer, on the nodes of its moisture column: 0 is the top face. */
export interface HeatedLayer {
  tempC: Float64Array
  conductivity: number
  capacity: number
  vapourResistance: number
  effects: TemperatureEffects
  upper: Float64Array
}

/** Returns a layer at one temperature, ready to be heated from below. */
export function heatedLayer(column: Column, material: Material, tempC: number): HeatedLayer {
  const nodes = column.cells + 2
  return {
    tempC: new Float64Array(nodes).fill(tempC),
    conductivity: material.constants.thermalConductivity.value,
    capacity: material.constants.heatCapacityJPerM3K.value,
    vapourResistance: material.constants.vapourResistance.value,
    effects: { transport: new Float64Array(nodes), upwardKgM2s: new Float64Array(nodes) },
    upper: new Float64Array(nodes),
  }
}

/** Returns the flow temperature of each hour; NaN where the circuit is off. */
export function hourlyFlow(steps: readonly HeatingStep[], startMs: number, hours: number): Float64Array {
  const times = steps.map((step, i) => requireInstant(`heating[${i}].at`, step.at))
  requireOrdered('heating', times)
  steps.forEach((step, i) => {
    if (step.flowC !== null) requireNumber(`heating[${i}].flowC`, step.flowC, 5, 60, '°C')
  })
  const flow = new Float64Array(hours).fill(Number.NaN)
  for (let i = 0, k = -1; i < hours; i++) {
    while (k + 1 < times.length && times[k + 1]! <= startMs + i * hourMs) k++
    flow[i] = k < 0 ? Number.NaN : (steps[k]!.flowC ?? Number.NaN)
  }
  return flow
}

/**
 * Moves the temperatures on by one implicit step and returns what they do to moisture: faster transport where it is
 * warm, vapour from warm to cold, and the face's own saturation pressure in `exposure.pull` (changed in place).
 * Heat flows by conduction only; the latent heat of the water that leaves is neglected (below 5 W/m² after a week).
 */
export function warmFor(
  layer: HeatedLayer,
  seconds: number,
  airC: number,
  flowC: number,
  column: Column,
  exposure: Exposure,
): TemperatureEffects {
  const { cells, inverseGap, widthM, depthM } = column
  const { tempC, upper, conductivity, capacity } = layer
  const right = tempC
  // Top node without mass: what comes up goes to the room.
  const up = conductivity * inverseGap[0]!
  let pivot = up + ROOM_TRANSFER
  upper[0] = -up / pivot
  right[0] = (ROOM_TRANSFER * airC) / pivot
  const pipe = Number.isNaN(flowC)
    ? 0
    : 1 / (1 / PIPE_TRANSFER + (depthM[cells + 1]! - depthM[cells]!) / conductivity)
  for (let i = 1; i <= cells; i++) {
    const above = conductivity * inverseGap[i - 1]!
    const below = i < cells ? conductivity * inverseGap[i]! : 0
    const store = (capacity * widthM[i]!) / seconds
    const fromPipe = i === cells ? pipe : 0
    pivot = store + above + below + fromPipe + above * upper[i - 1]!
    upper[i] = -below / pivot
    right[i] = (store * tempC[i]! + (fromPipe === 0 ? 0 : fromPipe * flowC) + above * right[i - 1]!) / pivot
  }
  for (let i = cells - 1; i >= 0; i--) tempC[i]! -= upper[i]! * tempC[i + 1]!
  const intoBase = pipe === 0 ? 0 : pipe * (flowC - tempC[cells]!)
  tempC[cells + 1] = tempC[cells]! + (intoBase * (depthM[cells + 1]! - depthM[cells]!)) / conductivity

  const { transport, upwardKgM2s } = layer.effects
  for (let i = 0; i < cells; i++) {
    const middleC = 0.5 * (tempC[i]! + tempC[i + 1]!)
    transport[i] = transportFactor(middleC)
    const pressureRise = saturationPressurePa(tempC[i + 1]!) - saturationPressurePa(tempC[i]!)
    const humidity = 0.5 * (column.h[i]! + column.h[i + 1]!)
    upwardKgM2s[i] =
      (airPermeability(middleC) / layer.vapourResistance) * humidity * pressureRise * inverseGap[i]!
  }
  exposure.pull = exposure.pushAtSaturation * (saturationPressurePa(tempC[0]!) / saturationPressurePa(airC))
  exposure.hydration = hydrationFactor(tempC[Math.ceil(cells / 2)]!)
  return layer.effects
}
