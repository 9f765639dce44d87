import { hourMs } from '#model/time.ts'
import { isSeries } from '../climate.ts'
import { runGrid } from './ensemble.ts'
import { offsetPriors } from './offset.ts'
import type { BayLesson } from './pool.ts'
import { gridAxes, posteriorNodes } from './posterior.ts'
import { type DryingBay, type PreparedBay, prepareBay } from './question.ts'

/** Of the time of drying, the share without recorded air beyond which a bay's factor stands for its room. */
const MOST_UNRECORDED = 0.5

/**
 * Returns what a bay's readings up to `asOf` say of ln(diffusivity factor) under the material's own prior: mean and
 * standard deviation of the posterior of `forecastReady`, from the past alone (105 runs, no futures). Null when no
 * reading is usable, or for more than half of the drying nobody recorded the air.
 * @errors InputError naming the field that is impossible
 */
export function lessonOf(
  bay: Omit<DryingBay, 'prior'>,
): Pick<BayLesson, 'lnKappaMean' | 'lnKappaSd' | 'readings'> | null {
  const prepared = prepareBay(bay)
  if ('missing' in prepared || prepared.sorted.usable.length === 0) return null
  if (unrecordedShare(bay, prepared) > MOST_UNRECORDED) return null
  const { sorted, material, prior, turnMs } = prepared
  const axes = gridAxes(prior, material.constants.startWaterSpread.value, 0)
  const ensemble = runGrid({
    ...prepared,
    horizonMs: turnMs + hourMs,
    sights: sorted.usable.map((reading) => reading.sight),
    kappas: axes.lnKappas.map(Math.exp),
    wetness: axes.wetness,
    rhShifts: [],
    stopRhPercent: Number.POSITIVE_INFINITY,
    stopMassPercent: Number.POSITIVE_INFINITY,
  })
  // The level only says where the model's error is wanted; the weights do not depend on it.
  const nodes = posteriorNodes(ensemble, axes, sorted.usable, offsetPriors(material), 'humidity', 0)
  const mean = nodes.reduce((sum, { weight, lnKappa }) => sum + weight * lnKappa, 0)
  const variance = nodes.reduce((sum, { weight, lnKappa }) => sum + weight * (lnKappa - mean) ** 2, 0)
  return { lnKappaMean: mean, lnKappaSd: Math.sqrt(variance), readings: sorted.usable.length }
}

function unrecordedShare({ pastClimate }: Pick<DryingBay, 'pastClimate'>, prepared: PreparedBay): number {
  const { gaps, dryMs, turnMs, asOfMs } = prepared
  if (!isSeries(pastClimate)) return 0
  if (!pastClimate.some(({ at }) => new Date(at).getTime() <= asOfMs)) return 1
  const missed = gaps.reduce((sum, gap) => sum + Math.max(0, gap.toMs - Math.max(gap.fromMs, dryMs)), 0)
  return missed / Math.max(1, turnMs - dryMs)
}
