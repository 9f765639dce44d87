import type { Ensemble } from './ensemble.ts'
import { type OffsetPrior, offsetGiven } from './offset.ts'
import { type GridAxes, posteriorNodes } from './posterior.ts'
import type { Group, SortedReadings } from './readings.ts'

export interface ReadingCheck {
  id: string
  /** How many standard deviations the reading lies from what all the others foretell; null for one that is not used. */
  z: number | null
  note: string
}

/** Beyond this a reading disagrees with the others. */
export const SUSPECT_Z = 2.5

/** Returns each used reading set against the forecast made without it. */
export function checkReadings(
  ensemble: Ensemble,
  axes: GridAxes,
  sorted: SortedReadings,
  priors: Record<Group, OffsetPrior>,
): ReadingCheck[] {
  return sorted.usable.map((reading, i) => {
    const nodes = posteriorNodes(ensemble, axes, sorted.usable, priors, reading.group, reading.value, i)
    let mean = 0
    let square = 0
    for (const node of nodes) {
      const { mean: shift, variance } = offsetGiven(
        sorted.usable,
        node.predicted,
        reading.group,
        priors[reading.group],
        node.predicted[i]!,
        i,
      )
      const expected = node.predicted[i]! + shift
      mean += node.weight * expected
      square += node.weight * (expected * expected + variance)
    }
    const z = (reading.value - mean) / Math.sqrt(square - mean * mean + reading.sd * reading.sd)
    const side = z > 0 ? 'wetter' : 'drier'
    const note =
      Math.abs(z) > SUSPECT_Z
        ? `Much ${side} than the others foretell (${mean.toFixed(1)}): a bad reading, a leak, or a climate that was not recorded.`
        : `The other readings and the model foretell ${mean.toFixed(1)}.`
    return { id: reading.id, z, note }
  })
}
