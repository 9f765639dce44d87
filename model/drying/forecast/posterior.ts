import type { Ensemble, GridRun } from './ensemble.ts'
import { type OffsetPrior, offsetGiven } from './offset.ts'
import type { Group, UsableReading } from './readings.ts'

/** The unknowns of the grid with their prior weights. */
export interface GridAxes {
  lnKappas: number[]
  kappaWeights: number[]
  wetness: number[]
  wetnessWeights: number[]
  rhShifts: number[]
  rhWeights: number[]
}

const normalWeights = (z: readonly number[]): number[] => {
  const raw = z.map((x) => Math.exp(-0.5 * x * x))
  const sum = raw.reduce((total, x) => total + x, 0)
  return raw.map((x) => x / sum)
}
const between = (least: number, most: number, count: number) =>
  Array.from({ length: count }, (_, i) => least + ((most - least) * i) / (count - 1))

export const KAPPA_NODES = 21
const REACH = 3
/** Each step between two values of kappa is divided by this, by interpolation. */
const REFINE = 8

/** Returns 21 × 5 × 5 grid points: normal in ln kappa, in start water and in the shift of future room humidity. */
export function gridAxes(
  prior: { lnKappaMean: number; lnKappaSd: number },
  startWaterSpread: number,
  rhShiftSd: number,
): GridAxes {
  const kappaZ = between(-REACH, REACH, KAPPA_NODES)
  const five = [-2, -1, 0, 1, 2]
  return {
    lnKappas: kappaZ.map((z) => prior.lnKappaMean + z * prior.lnKappaSd),
    kappaWeights: normalWeights(kappaZ),
    wetness: five.map((z) => 1 + z * startWaterSpread),
    wetnessWeights: normalWeights(five),
    rhShifts: five.map((z) => z * rhShiftSd),
    rhWeights: normalWeights(five),
  }
}

/** One value of kappa between two of the grid, with one start water: its weight, and what the readings say of it. */
export interface FineNode {
  lnKappa: number
  /** The grid runs around it and how much of each. */
  runs: [GridRun, GridRun]
  share: number
  wet: number
  weight: number
  offset: { mean: number; variance: number }
  predicted: Float64Array
}

/**
 * Returns the posterior over kappa and start water: grid weights times likelihood, refined between grid points by
 * interpolating what each run predicts. Weights sum to 1.
 * @param level where the error of the model is wanted, in the unit of `limitGroup` as the model has it
 * @param without index of a reading to leave out, or -1
 */
export function posteriorNodes(
  ensemble: Ensemble,
  axes: GridAxes,
  readings: readonly UsableReading[],
  priors: Record<Group, OffsetPrior>,
  limitGroup: Group,
  level: number,
  without = -1,
): FineNode[] {
  const nodes: FineNode[] = []
  const logs: number[] = []
  const wets = axes.wetness.length
  const step = axes.lnKappas[1]! - axes.lnKappas[0]!
  const mean = axes.lnKappas[(axes.lnKappas.length - 1) / 2]!
  const sd = (step * (axes.lnKappas.length - 1)) / (2 * REACH)
  const groups: Group[] = ['humidity', 'carbide', 'mass']
  for (let k = 0; k < axes.lnKappas.length - 1; k++) {
    for (let fine = k === 0 ? 0 : 1; fine <= REFINE; fine++) {
      const share = fine / REFINE
      const lnKappa = axes.lnKappas[k]! + share * step
      const z = (lnKappa - mean) / sd
      for (let w = 0; w < wets; w++) {
        const low = ensemble.runs[k * wets + w]!
        const high = ensemble.runs[(k + 1) * wets + w]!
        const predicted = new Float64Array(readings.length)
        for (let i = 0; i < predicted.length; i++)
          predicted[i] = low.predicted[i]! + share * (high.predicted[i]! - low.predicted[i]!)
        let log = -0.5 * z * z + Math.log(axes.wetnessWeights[w]!)
        let offset = { mean: priors[limitGroup].mean, variance: priors[limitGroup].sd ** 2 }
        for (const group of groups) {
          const given = offsetGiven(readings, predicted, group, priors[group], level, without)
          log += given.logLikelihood
          if (group === limitGroup) offset = { mean: given.mean, variance: given.variance }
        }
        logs.push(log)
        nodes.push({ lnKappa, runs: [low, high], share, wet: w, weight: 0, offset, predicted })
      }
    }
  }
  const top = Math.max(...logs)
  let sum = 0
  for (let i = 0; i < nodes.length; i++) sum += nodes[i]!.weight = Math.exp(logs[i]! - top)
  for (const node of nodes) node.weight /= sum
  return nodes
}

/** Returns a quantile of weighted values; between two values it goes straight. */
export function weightedQuantile(values: readonly number[], weights: readonly number[], p: number): number {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!)
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  let below = 0
  let lastMiddle = 0
  let lastValue = Number.NaN
  for (const i of order) {
    const middle = (below + 0.5 * weights[i]!) / total
    if (middle >= p) {
      if (Number.isNaN(lastValue) || middle === lastMiddle) return values[i]!
      return lastValue + ((p - lastMiddle) / (middle - lastMiddle)) * (values[i]! - lastValue)
    }
    below += weights[i]!
    if (weights[i]! > 0) {
      lastMiddle = middle
      lastValue = values[i]!
    }
  }
  return values[order.at(-1)!]!
}
