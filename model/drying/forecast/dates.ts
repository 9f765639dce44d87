import { dayMs, hourMs } from '#model/time.ts'
import type { Ensemble, GridRun } from './ensemble.ts'
import type { FineNode, GridAxes } from './posterior.ts'

/** Three-point Gauss–Hermite nodes of the standard normal. */
const HERMITE = [
  { z: -Math.sqrt(3), weight: 1 / 6 },
  { z: 0, weight: 2 / 3 },
  { z: Math.sqrt(3), weight: 1 / 6 },
]

/** When a limit is kept, as weights on days since drying began; what never gets there is counted apart. */
export interface DateSpread {
  dryMs: number
  binDays: number
  weights: Float64Array
  notReached: number
}

export type Measure = 'rh' | 'mass'

/** Returns when a run's measure falls to a level for good [ms]; infinity when it does not within the run. */
export function timeAtLevel(
  ensemble: Ensemble,
  run: GridRun,
  future: number,
  measure: Measure,
  level: number,
): number {
  const past = measure === 'rh' ? run.pastRh : run.pastMass
  const track = run.futures[future]!
  const ahead = measure === 'rh' ? track.rh : track.mass
  const last = past.length - 1
  if (past[last]! <= level) {
    // Dry already: back to where it fell below the level.
    let k = last
    while (k > 0 && past[k - 1]! <= level) k--
    if (k === 0) return ensemble.pastAt[0]!
    return crossing(ensemble.pastAt[k - 1]!, ensemble.pastAt[k]!, past[k - 1]!, past[k]!, level)
  }
  let low = 0
  for (let k = 1; k < track.count; k++) {
    if (ahead[k]! <= level) {
      low = k
      break
    }
  }
  if (low === 0) return Number.POSITIVE_INFINITY
  return crossing(ensemble.futureAt[low - 1]!, ensemble.futureAt[low]!, ahead[low - 1]!, ahead[low]!, level)
}

function crossing(fromMs: number, toMs: number, from: number, to: number, level: number): number {
  return fromMs + ((from - level) / (from - to)) * (toMs - fromMs)
}

/**
 * Returns the spread of the date on which the limit is kept, over every node, future and error of the model.
 * A warmer or colder future (±`lnRateSd` in the rate of drying) stretches what is left of each run.
 * @param neverShift futures (by index) whose air is too damp ever to reach the limit
 */
export function dateSpread(
  ensemble: Ensemble,
  nodes: readonly FineNode[],
  axes: GridAxes,
  question: {
    dryMs: number
    turnMs: number
    horizonMs: number
    measure: Measure
    limit: number
    lnRateSd: number
    never: readonly boolean[]
  },
): DateSpread {
  const { dryMs, turnMs, horizonMs, measure, limit } = question
  const binDays = 0.1
  const bins = Math.ceil((horizonMs - dryMs) / dayMs / binDays) + 2
  const weights = new Float64Array(bins)
  let notReached = 0
  for (const node of nodes) {
    if (node.weight < 1e-9) continue
    const sd = Math.sqrt(node.offset.variance)
    for (const error of HERMITE) {
      // The reading is the model plus its shift, so the model must fall to the limit less the shift.
      const level = limit - node.offset.mean - error.z * sd
      for (let o = 0; o < axes.rhShifts.length; o++) {
        const weight = node.weight * error.weight * axes.rhWeights[o]!
        const at =
          question.never[o] === true
            ? Number.POSITIVE_INFINITY
            : interpolated(ensemble, node, o, measure, level, dryMs)
        if (!Number.isFinite(at)) {
          notReached += weight
          continue
        }
        for (const warmth of HERMITE) {
          const stretched =
            at <= turnMs ? at : turnMs + (at - turnMs) * Math.exp(-warmth.z * question.lnRateSd)
          const part = weight * warmth.weight
          if (stretched > horizonMs) {
            notReached += part
            continue
          }
          const place = Math.max(0, (stretched - dryMs) / dayMs / binDays)
          const bin = Math.floor(place)
          weights[bin]! += part * (1 - (place - bin))
          weights[bin + 1]! += part * (place - bin)
        }
      }
    }
  }
  return { dryMs, binDays, weights, notReached }
}

function interpolated(
  ensemble: Ensemble,
  node: FineNode,
  future: number,
  measure: Measure,
  level: number,
  dryMs: number,
): number {
  const { share, runs } = node
  const low = share === 1 ? 0 : timeAtLevel(ensemble, runs[0], future, measure, level)
  const high = share === 0 ? 0 : timeAtLevel(ensemble, runs[1], future, measure, level)
  if (share === 0) return low
  if (share === 1) return high
  if (!Number.isFinite(low) || !Number.isFinite(high)) return share < 0.5 ? low : high
  const a = Math.max(low - dryMs, hourMs)
  const b = Math.max(high - dryMs, hourMs)
  return dryMs + a * (b / a) ** share
}

/** Returns the instant by which the limit is kept with probability p [ms]; null when it may not be. */
export function dateQuantile(spread: DateSpread, p: number): number | null {
  let sum = 0
  for (let i = 0; i < spread.weights.length; i++) {
    const next = sum + spread.weights[i]!
    if (next >= p) {
      const share = (p - sum) / spread.weights[i]!
      return spread.dryMs + Math.max(0, i - 0.5 + share) * spread.binDays * dayMs
    }
    sum = next
  }
  return null
}
