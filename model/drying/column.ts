import type { PoreTable } from './tables.ts'

/**
 * One column of screed from its drying face down: cells, the surface nodes on its faces and the room to solve one
 * implicit step. Node 0 is the top face, 1…cells the cells, cells+1 the lower face when that one dries too.
 */
export interface Column {
  cells: number
  lengthM: number
  bothFaces: boolean
  table: PoreTable
  /** Width of each cell [m], index 1…cells. */
  widthM: Float64Array
  /** Depth of each node [m], index 0…cells+1. */
  depthM: Float64Array
  /** 1/distance between node i and i+1 [1/m]. */
  inverseGap: Float64Array
  /** Pore humidity of each node [-]. */
  h: Float64Array
  /** Water of each cell [kg/m³] as the balance of fluxes gives it: this is what is conserved. */
  water: Float64Array
  /** Conductance factor of each gap for the step being solved [1/m], temperature and age included. */
  gapFactor: Float64Array
  /** Water brought into (or bound in) each cell in the step being solved [kg/m²]. */
  gain: Float64Array
  /** The water each cell starts the step from [kg/m³]. */
  from: Float64Array
  work: {
    upper: Float64Array
    right: Float64Array
    potential: Float64Array
    conductivity: Float64Array
    w: Float64Array
    capacity: Float64Array
  }
}

/** Cells grow from the drying face by this ratio of last to first. */
const GROWTH = 24

/** Returns a column whose cells grow geometrically away from each drying face. */
export function makeColumn(
  table: PoreTable,
  lengthM: number,
  faces: 1 | 2,
  cells: number,
  growth = GROWTH,
): Column {
  const bothFaces = faces === 2
  const widthM = new Float64Array(cells + 2)
  const ratio = growth ** (1 / Math.max(1, (bothFaces ? Math.ceil(cells / 2) : cells) - 1))
  let sum = 0
  for (let i = 1; i <= cells; i++) {
    const fromFace = bothFaces ? Math.min(i - 1, cells - i) : i - 1
    widthM[i] = ratio ** fromFace
    sum += widthM[i]!
  }
  const depthM = new Float64Array(cells + 2)
  const inverseGap = new Float64Array(cells + 1)
  let depth = 0
  for (let i = 1; i <= cells; i++) {
    widthM[i]! *= lengthM / sum
    depthM[i] = depth + 0.5 * widthM[i]!
    depth += widthM[i]!
  }
  depthM[cells + 1] = lengthM
  for (let i = 0; i <= cells; i++) inverseGap[i] = 1 / (depthM[i + 1]! - depthM[i]!)
  const room = () => new Float64Array(cells + 2)
  return {
    cells,
    lengthM,
    bothFaces,
    table,
    widthM,
    depthM,
    inverseGap,
    h: room(),
    water: room(),
    gapFactor: new Float64Array(cells + 1),
    gain: room(),
    from: room(),
    work: {
      upper: room(),
      right: room(),
      potential: room(),
      conductivity: room(),
      w: room(),
      capacity: room(),
    },
  }
}

/** What the air does to a face during a step: flux out = pull × h − push, both [kg/(m² s)]. */
export interface FaceExchange {
  pull: number
  push: number
}

/**
 * Solves one implicit step in place: water = from + seconds × (net flux into the cell) + gain, for the pore humidity
 * of every node; `from`, `gapFactor` and `gain` of the column say what the step starts from.
 * Newton's method with a tridiagonal solve. The water kept is the linearised balance of the last iteration, so mass
 * closes to rounding however few iterations are run; what Newton leaves over is corrected by the next step.
 * Returns the largest change of pore humidity in the last iteration.
 */
export function solveStep(
  column: Column,
  seconds: number,
  top: FaceExchange,
  bottom: FaceExchange,
  tolerance: number,
  mostIterations: number,
): number {
  const { cells, bothFaces, h, water, widthM, gapFactor, gain, from } = column
  const { upper, right, potential, conductivity, w, capacity } = column.work
  const { data, intervals } = column.table
  const last = bothFaces ? cells + 1 : cells
  let change = 1
  for (let iteration = 0; iteration < mostIterations && change > tolerance; iteration++) {
    for (let i = 0; i <= last; i++) {
      const x = h[i]!
      let j = (x * intervals) | 0
      if (j < 0) j = 0
      else if (j >= intervals) j = intervals - 1
      const s = x - j / intervals
      const at = j * 6
      const bendW = s * data[at + 2]!
      const slopeW = data[at + 1]!
      w[i] = data[at]! + s * (slopeW + bendW)
      capacity[i] = slopeW + 2 * bendW
      const bendP = s * data[at + 5]!
      const slopeP = data[at + 4]!
      potential[i] = data[at + 3]! + s * (slopeP + bendP)
      conductivity[i] = slopeP + 2 * bendP
    }
    // Top face: what the screed brings up equals what the air takes.
    let factor = gapFactor[0]!
    let pivot = factor * conductivity[0]! + top.pull
    upper[0] = (-factor * conductivity[1]!) / pivot
    right[0] = (factor * (potential[1]! - potential[0]!) - (top.pull * h[0]! - top.push)) / pivot
    for (let i = 1; i <= cells; i++) {
      const above = seconds * gapFactor[i - 1]!
      const below = i < last ? seconds * gapFactor[i]! : 0
      const lower = -above * conductivity[i - 1]!
      const diagonal = widthM[i]! * capacity[i]! + (above + below) * conductivity[i]!
      const netIn =
        above * (potential[i - 1]! - potential[i]!) +
        (i < last ? below * (potential[i + 1]! - potential[i]!) : 0)
      const rest = widthM[i]! * (from[i]! - w[i]!) + gain[i]! + netIn
      pivot = diagonal - lower * upper[i - 1]!
      upper[i] = i < last ? (-below * conductivity[i + 1]!) / pivot : 0
      right[i] = (rest - lower * right[i - 1]!) / pivot
    }
    if (bothFaces) {
      factor = gapFactor[cells]!
      const lower = -factor * conductivity[cells]!
      pivot = factor * conductivity[last]! + bottom.pull - lower * upper[cells]!
      right[last] =
        (factor * (potential[cells]! - potential[last]!) -
          (bottom.pull * h[last]! - bottom.push) -
          lower * right[cells]!) /
        pivot
    }
    change = 0
    let delta = 0
    for (let i = last; i >= 0; i--) {
      delta = i === last ? right[i]! : right[i]! - upper[i]! * delta
      water[i] = w[i]! + capacity[i]! * delta
      h[i]! += delta
      const size = delta < 0 ? -delta : delta
      if (size > change) change = size
    }
  }
  if (!bothFaces) h[cells + 1] = h[cells]!
  return change
}

/** Returns the water in the column [kg/m²]. */
export function waterKgM2(column: Column): number {
  let sum = 0
  for (let i = 1; i <= column.cells; i++) sum += column.widthM[i]! * column.water[i]!
  return sum
}

/** Sets every node to one pore humidity and the water to match. */
export function fillColumn(column: Column, h: number, waterKgM3: number): void {
  column.h.fill(h)
  column.water.fill(waterKgM3)
}

/** Four nodes and their weights that give the pore humidity at a depth by a cubic through the nearest four. */
export interface DepthProbe {
  first: number
  weights: [number, number, number, number]
}

/** Returns the probe for a depth [m]; depths outside the layer are taken at its faces. */
export function probeAt(column: Column, depthM: number): DepthProbe {
  const nodes = column.bothFaces ? column.cells + 2 : column.cells + 1
  const x = Math.min(Math.max(depthM, 0), column.depthM[nodes - 1]!)
  let above = 0
  while (above < nodes - 2 && column.depthM[above + 1]! <= x) above++
  const first = Math.min(Math.max(above - 1, 0), nodes - 4)
  const at = (k: number) => column.depthM[first + k]!
  const weight = (k: number) => {
    let product = 1
    for (let m = 0; m < 4; m++) if (m !== k) product *= (x - at(m)) / (at(k) - at(m))
    return product
  }
  return { first, weights: [weight(0), weight(1), weight(2), weight(3)] }
}

/** Returns the pore humidity a probe reads. */
export function probeReading(h: Float64Array, probe: DepthProbe): number {
  const { first, weights } = probe
  return (
    weights[0] * h[first]! +
    weights[1] * h[first + 1]! +
    weights[2] * h[first + 2]! +
    weights[3] * h[first + 3]!
  )
}
