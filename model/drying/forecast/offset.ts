import type { Material } from '../materials.ts'
import type { Group, UsableReading } from './readings.ts'

/** What is believed of the shift between the model and one group of readings before any is seen. */
export interface OffsetPrior {
  mean: number
  sd: number
}

/** The model's own error of pore humidity, common to all humidity readings of a bay [% RH]. */
export const HUMIDITY_DISCREPANCY_SD = 1.2
/** The model's own error of mean moisture, common to all oven samples of a bay [mass %]. */
export const MASS_DISCREPANCY_SD = 0.1

export function offsetPriors(material: Material): Record<Group, OffsetPrior> {
  const { carbideOffsetPercent, carbideOffsetSd } = material.constants
  return {
    humidity: { mean: 0, sd: HUMIDITY_DISCREPANCY_SD },
    mass: { mean: 0, sd: MASS_DISCREPANCY_SD },
    carbide: {
      mean: -carbideOffsetPercent.value,
      sd: Math.hypot(carbideOffsetSd.value, MASS_DISCREPANCY_SD),
    },
  }
}

/** What the readings of a group, set against one run, say about their common shift and about that run. */
export interface OffsetPosterior {
  mean: number
  variance: number
  logLikelihood: number
}

/**
 * Returns the shift common to a group of readings given one run, and the likelihood of that run with the shift
 * integrated out: residuals have covariance diag(sd²) + s² 11'. Exact for normal errors.
 * @param without the index of a reading to leave out, or -1
 */
export function offsetGiven(
  readings: readonly UsableReading[],
  predicted: Float64Array,
  group: Group,
  prior: OffsetPrior,
  without: number,
): OffsetPosterior {
  let precision = 0
  let pull = 0
  let spread = 0
  let logSd = 0
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i]!
    if (reading.group !== group || i === without) continue
    const weight = 1 / (reading.sd * reading.sd)
    const residual = reading.value - predicted[i]! - prior.mean
    precision += weight
    pull += weight * residual
    spread += weight * residual * residual
    logSd += Math.log(reading.sd)
  }
  const priorVariance = prior.sd * prior.sd
  const shrink = priorVariance / (1 + priorVariance * precision)
  return {
    mean: prior.mean + shrink * pull,
    variance: shrink,
    logLikelihood:
      -0.5 * (spread - shrink * pull * pull) - logSd - 0.5 * Math.log(1 + priorVariance * precision),
  }
}
