import { dayMs } from '#model/time.ts'
import { saturationPressurePa } from '../../air/index.ts'
import type { ReadyForecast } from '../forecast-shape.ts'
import { transportFactor } from '../vapour.ts'
import { humidityBand } from './band.ts'
import { checkReadings } from './check-readings.ts'
import { dateQuantile, dateSpread } from './dates.ts'
import { driversOf, type Middle } from './drivers.ts'
import { type Ensemble, type GridQuestion, runGrid } from './ensemble.ts'
import { type OffsetPrior, offsetPriors } from './offset.ts'
import { type FineNode, type GridAxes, gridAxes, posteriorNodes, weightedQuantile } from './posterior.ts'
import { type ForecastInput, FUTURE_TEMPERATURE_SD_K, type Prepared, prepare } from './question.ts'
import type { Group } from './readings.ts'
import { forecastWhy } from './reasons.ts'

/** A bay whose air is within this of the limit dries so slowly at the end that no date is given. */
const NEVER_MARGIN_PERCENT = 2
/** How the grid is run: the model's own long steps, or a slower way that checks them. */
export type GridRunner = (question: GridQuestion) => Ensemble

/** The dates of a forecast and what they were drawn from. */
export interface ForecastDates {
  prepared: Prepared
  priors: Record<Group, OffsetPrior>
  axes: GridAxes
  ensemble: Ensemble
  nodes: FineNode[]
  notReachedProbability: number
  /** Quantile of the date [ms]; null when it may not be reached with that probability. */
  quantileMs: (p: number) => number | null
  /** The middle of what was learned. */
  middle: Middle
}

/**
 * Returns when a bay keeps a moisture limit, as a range that learns from the bay's own readings.
 * Every combination of 21 diffusivity factors, 5 start waters and 5 shifts of the future room humidity (525 runs) is
 * simulated under the recorded climate; readings weigh them, and what they say about the model's error near the
 * limit shifts the crossing; the weighted dates give the range. Nothing is drawn at random. When more than 10 % of
 * the weight does not get there within two years, or the room is within 2 % of the limit, the late date is null:
 * not reached. A forecast plans; it never releases a bay.
 * @param input see `ForecastInput`; % RH limits mean the reading at 40 % depth (20 % with two faces), or equilibrium
 * @param runner how the grid is run; only checks and progress give another
 * @returns dates as ISO 8601 UTC or null; what is missing is an answer, not an error
 * @errors InputError naming the field that is impossible
 * @source Bayes' rule on a grid; model of `simulateDrying`
 * @accuracy on simulated bays only: see docs/model.md, “How well the forecast does”
 * @provenance our judgement
 */
export function forecastReady(input: ForecastInput, runner: GridRunner = runGrid): ReadyForecast {
  const dates = forecastDates(input, runner)
  return 'missing' in dates ? nothingKnown(input, dates.missing) : presentForecast(input, dates)
}

/** Returns the dates alone, or what is missing; `runner` lets a check replace the solver. */
export function forecastDates(
  input: ForecastInput,
  runner: GridRunner = runGrid,
): ForecastDates | { missing: string[] } {
  const prepared = prepare(input)
  if ('missing' in prepared) return prepared
  const { measure, limitGroup, sorted, material } = prepared
  const limit = input.limit.value
  const priors = offsetPriors(material)
  const axes = gridAxes(prepared.prior, material.constants.startWaterSpread.value, prepared.futureRhSd)
  const level = limit - priors[limitGroup].mean
  const below = 3 * priors[limitGroup].sd
  const ensemble = runner({
    ...prepared,
    sights: sorted.usable.map((reading) => reading.sight),
    kappas: axes.lnKappas.map(Math.exp),
    wetness: axes.wetness,
    rhShifts: axes.rhShifts,
    stopRhPercent: measure === 'rh' ? level - below : Number.POSITIVE_INFINITY,
    stopMassPercent: measure === 'mass' ? level - below : Number.POSITIVE_INFINITY,
  })
  const nodes = posteriorNodes(ensemble, axes, sorted.usable, priors, limitGroup, level)
  const warm = transportFactor(prepared.futureAir.airC + FUTURE_TEMPERATURE_SD_K)
  const spread = dateSpread(ensemble, nodes, axes, {
    ...prepared,
    limit,
    lnRateSd: Math.log(warm / transportFactor(prepared.futureAir.airC)),
    never: axes.rhShifts.map(
      (shift) => measure === 'rh' && faceAirRh(prepared) + shift >= limit - NEVER_MARGIN_PERCENT,
    ),
  })
  const mean = (of: (node: FineNode) => number) =>
    nodes.reduce((sum, node) => sum + node.weight * of(node), 0)
  return {
    prepared,
    priors,
    axes,
    ensemble,
    nodes,
    notReachedProbability: spread.notReached,
    quantileMs: (p) => dateQuantile(spread, p),
    middle: {
      kappa: factorQuantile(nodes, 0.5),
      wetness: mean((node) => axes.wetness[node.wet]!),
      offset: mean((node) => node.offset.mean),
    },
  }
}

function factorQuantile(nodes: readonly FineNode[], p: number): number {
  return weightedQuantile(
    nodes.map((node) => Math.exp(node.lnKappa)),
    nodes.map((node) => node.weight),
    p,
  )
}

/** Puts dates into the words and numbers a screen shows. */
function presentForecast(input: ForecastInput, dates: ForecastDates): ReadyForecast {
  const { prepared, ensemble, nodes, axes, priors, middle, quantileMs, notReachedProbability } = dates
  const { sorted } = prepared
  const p50Ms = quantileMs(0.5)
  const p90Ms = quantileMs(0.9)
  const iso = (ms: number | null) => (ms === null ? null : new Date(ms).toISOString())
  const three = { p10: iso(quantileMs(0.1)), p50: iso(p50Ms), p90: iso(p90Ms) }
  const used = sorted.usable.length
  const lastMs = (p90Ms ?? p50Ms ?? prepared.turnMs + 180 * dayMs) + 14 * dayMs
  const bandEndMs = Math.max(prepared.turnMs, Math.min(prepared.horizonMs, lastMs))
  return {
    asOf: new Date(prepared.asOfMs).toISOString(),
    limit: input.limit,
    ...three,
    notReachedProbability,
    band: humidityBand(ensemble, nodes, axes, prepared.turnMs, bandEndMs),
    learned:
      used === 0
        ? null
        : {
            diffusivityFactor: {
              p10: factorQuantile(nodes, 0.1),
              p50: middle.kappa,
              p90: factorQuantile(nodes, 0.9),
            },
          },
    drivers: driversOf(prepared, input.limit.value, middle),
    readingsCheck: [
      ...checkReadings(ensemble, axes, sorted, priors),
      ...sorted.unused.map(({ id, note }) => ({ id, z: null, note })),
    ],
    assumptions: [
      ...prepared.assumptions,
      prepared.material.caution,
      ...(used === 0
        ? [
            `No usable moisture reading yet: the range comes from the material ${input.prior === undefined ? 'alone' : 'and from other bays'}.`,
          ]
        : []),
    ],
    why: forecastWhy(input, prepared, three, notReachedProbability, middle),
    missing: [],
  }
}

/** The room's humidity as the face of the screed meets it: at the screed's own temperature [%]. */
function faceAirRh({ futureAir }: Prepared): number {
  return (
    (futureAir.rhPercent * saturationPressurePa(futureAir.airC)) / saturationPressurePa(futureAir.screedC)
  )
}

function nothingKnown(input: ForecastInput, missing: string[]): ReadyForecast {
  return {
    asOf: new Date(input.asOf).toISOString(),
    limit: input.limit,
    p10: null,
    p50: null,
    p90: null,
    notReachedProbability: 0,
    band: [],
    learned: null,
    drivers: [],
    readingsCheck: [],
    assumptions: [],
    why: [],
    missing,
  }
}
