import { hourMs } from '#model/time.ts'
import type { Ensemble } from './ensemble.ts'
import { type FineNode, type GridAxes, weightedQuantile } from './posterior.ts'

export interface BandPoint {
  /** Epoch milliseconds. */
  at: number
  p10: number
  p50: number
  p90: number
}

const MOST_POINTS = 90

/** Returns the range of pore humidity at 40 % depth [%] from the start of drying to `endMs`. */
export function humidityBand(
  ensemble: Ensemble,
  nodes: readonly FineNode[],
  axes: GridAxes,
  turnMs: number,
  endMs: number,
): BandPoint[] {
  // Refined weights are put back on the runs of the grid, so that the band needs no further interpolation.
  const runWeights = new Map<number, { weight: number; shift: number }>()
  for (const node of nodes) {
    for (const side of [0, 1] as const) {
      const part = node.weight * (side === 0 ? 1 - node.share : node.share)
      if (part < 1e-7) continue
      const index = ensemble.runs.indexOf(node.runs[side])
      const held = runWeights.get(index) ?? { weight: 0, shift: 0 }
      runWeights.set(index, { weight: held.weight + part, shift: held.shift + part * node.offset.mean })
    }
  }
  const startMs = ensemble.pastAt[0]!
  const every = Math.max(24 * hourMs, (endMs - startMs) / MOST_POINTS)
  const band: BandPoint[] = []
  for (let at = startMs; at <= endMs + 1; at += every) {
    const values: number[] = []
    const weights: number[] = []
    for (const [index, { weight, shift }] of runWeights) {
      const run = ensemble.runs[index]!
      const offset = shift / weight
      if (at <= turnMs) {
        values.push(valueAt(ensemble.pastAt, run.pastRh, run.pastRh.length, at) + offset)
        weights.push(weight)
      } else
        for (let o = 0; o < axes.rhShifts.length; o++) {
          const future = run.futures[o]!
          values.push(valueAt(ensemble.futureAt, future.rh, future.count, at) + offset)
          weights.push(weight * axes.rhWeights[o]!)
        }
    }
    const quantile = (p: number) => Math.min(100, weightedQuantile(values, weights, p))
    band.push({ at, p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) })
  }
  return band
}

/** Returns a track's value at an instant; beyond its end it goes on towards where its last steps were heading. */
function valueAt(times: Float64Array, values: Float64Array, count: number, atMs: number): number {
  if (count === 1) return values[0]!
  const last = count - 1
  if (atMs >= times[last]!) {
    const slope = (values[last]! - values[last - 1]!) / (times[last]! - times[last - 1]!)
    const ageMs = Math.max(times[last]! - times[0]!, times[last]! - times[last - 1]!)
    const x = (atMs - times[last]!) / ageMs
    return values[last]! + slope * ageMs * (1 - Math.exp(-x))
  }
  let low = 0
  let high = last
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (times[middle]! <= atMs) low = middle
    else high = middle
  }
  const share = (atMs - times[low]!) / (times[high]! - times[low]!)
  return values[low]! + share * (values[high]! - values[low]!)
}
