import type { Material } from '../materials.ts'
import type { Group, UsableReading } from './readings.ts'

/**
 * What is believed of the gap between readings of one group and the model before any is seen.
 * Errors of the model are alike at like humidity and forget each other over `reach`: a reading near the limit says
 * much about the error at the limit, one far above it little.
 */
export interface OffsetPrior {
  mean: number
  sd: number
  reach: number
}

/** The model's own error of pore humidity [% RH], and over how much humidity it changes; tuned, see docs/model.md. */
export const HUMIDITY_DISCREPANCY = { sd: 2.5, reach: 5 }
/** The model's own error of mean moisture [mass %]; our judgement. */
export const MASS_DISCREPANCY = { sd: 0.15, reach: 1.5 }

export function offsetPriors(material: Material): Record<Group, OffsetPrior> {
  const { carbideOffsetPercent, carbideOffsetSd } = material.constants
  return {
    humidity: { mean: 0, ...HUMIDITY_DISCREPANCY },
    mass: { mean: 0, ...MASS_DISCREPANCY },
    // What carbide does not reach is a property of the cement: the same for every sample of the bay.
    carbide: {
      mean: -carbideOffsetPercent.value,
      sd: Math.hypot(carbideOffsetSd.value, MASS_DISCREPANCY.sd),
      reach: Number.POSITIVE_INFINITY,
    },
  }
}

/** What the readings of a group, set against one run, say about that run and about its error at some level. */
export interface OffsetPosterior {
  mean: number
  variance: number
  logLikelihood: number
}

const covariance = (prior: OffsetPrior, a: number, b: number) =>
  prior.sd * prior.sd * Math.exp(-Math.abs(a - b) / prior.reach)

/**
 * Returns the error of one run at `level` given the readings of a group, and the likelihood of that run with its
 * errors integrated out. Residuals are normal with covariance diag(sd²) + s² exp(-|difference|/reach). Exact.
 * @param level where the error is wanted, in the unit of the group as the run has it
 * @param without the index of a reading to leave out, or -1
 */
export function offsetGiven(
  readings: readonly UsableReading[],
  predicted: Float64Array,
  group: Group,
  prior: OffsetPrior,
  level: number,
  without = -1,
): OffsetPosterior {
  const at: number[] = []
  const residual: number[] = []
  const toLevel: number[] = []
  const rows: number[][] = []
  let logLikelihood = 0
  let mean = prior.mean
  let variance = prior.sd * prior.sd
  // Cholesky row by row: each reading in turn is set against those before it.
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]!
    if (reading.group !== group || i === without) continue
    const here = predicted[i]!
    const row: number[] = []
    let diagonal = prior.sd * prior.sd + reading.sd * reading.sd
    let left = reading.value - here - prior.mean
    let link = covariance(prior, here, level)
    for (let k = 0; k < rows.length; k++) {
      let value = covariance(prior, here, at[k]!)
      for (let m = 0; m < k; m++) value -= row[m]! * rows[k]![m]!
      value /= rows[k]![k]!
      row.push(value)
      diagonal -= value * value
      left -= value * residual[k]!
      link -= value * toLevel[k]!
    }
    const scale = Math.sqrt(diagonal)
    row.push(scale)
    rows.push(row)
    at.push(here)
    residual.push(left / scale)
    toLevel.push(link / scale)
    logLikelihood -= 0.5 * (left / scale) ** 2 + Math.log(scale)
    mean += (link / scale) * (left / scale)
    variance -= (link / scale) ** 2
  }
  return { mean, variance: Math.max(0, variance), logLikelihood }
}
