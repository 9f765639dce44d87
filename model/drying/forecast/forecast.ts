import { HOUR_MS } from '../climate.ts'
import type { ReadyForecast } from '../forecast-shape.ts'
import { transportFactor, vapourPressureAtSaturationPa } from '../vapour.ts'
import { humidityBand } from './band.ts'
import { checkReadings } from './check-readings.ts'
import { dateQuantile, dateSpread } from './dates.ts'
import { driversOf, type Middle } from './drivers.ts'
import { type Ensemble, type GridQuestion, runGrid } from './ensemble.ts'
import { offsetPriors } from './offset.ts'
import { gridAxes, posteriorNodes, weightedQuantile } from './posterior.ts'
import { type ForecastInput, FUTURE_TEMPERATURE_SD_K, type Prepared, prepare } from './question.ts'
import { forecastWhy } from './reasons.ts'

const DAY_MS = 24 * HOUR_MS
/** A bay whose air is within this of the limit dries so slowly at the end that no date is given. */
const NEVER_MARGIN_PERCENT = 2
/** Runs go this far past the limit, so that errors of the model and of readings can move the crossing. */
const PAST_LIMIT = { rh: 5, mass: 0.25 }

/** How the grid is run: the model's own long steps, or a slower way that checks them. */
export type GridRunner = (question: GridQuestion) => Ensemble

/** What the dates were drawn from, for scoring. */
export interface ForecastParts {
  forecast: ReadyForecast
  /** Quantile of the date [ms]; null when it may not be reached with that probability. */
  quantileMs: (p: number) => number | null
  /** The checked inputs and the middle of what was learned; null when something is missing. */
  middle: Middle | null
  prepared: Prepared | null
}

/**
 * Returns when a bay keeps a moisture limit, as a range that learns from the bay's own readings.
 * Every combination of 21 diffusivity factors, 5 start waters and 5 shifts of the future room humidity (525 runs) is
 * simulated under the recorded climate; readings weigh them, with one error of the model common to all readings of a
 * kind; the weighted dates give the range. Nothing is drawn at random. When more than 10 % of the weight does not
 * get there within two years, or the room is within 2 % of the limit, the late date is null: not reached.
 * A forecast plans; it never releases a bay.
 * @param input see `ForecastInput`; % RH limits mean the reading at 40 % depth (20 % with two faces), or equilibrium
 * @returns dates as ISO 8601 UTC or null; what is missing is an answer, not an error
 * @errors InputError naming the field that is impossible
 * @source Bayes' rule on a grid; model of `simulateDrying`
 * @accuracy on simulated bays only: see docs/model.md, “How well the forecast does”
 * @provenance our judgement
 */
export function forecastReady(input: ForecastInput): ReadyForecast {
  return forecastParts(input).forecast
}

/** Returns the forecast and the spread it came from; `runner` lets a check replace the solver. */
export function forecastParts(input: ForecastInput, runner: GridRunner = runGrid): ForecastParts {
  const prepared = prepare(input)
  if ('missing' in prepared)
    return {
      forecast: nothingKnown(input, prepared.missing),
      quantileMs: () => null,
      middle: null,
      prepared: null,
    }
  const { measure, limitGroup, sorted, material } = prepared
  const limit = input.limit.value
  const priors = offsetPriors(material)
  const axes = gridAxes(prepared.prior, material.constants.startWaterSpread.value, prepared.futureRhSd)
  const level = limit - priors[limitGroup].mean
  const ensemble = runner({
    ...prepared,
    sights: sorted.usable.map((reading) => reading.sight),
    kappas: axes.lnKappas.map(Math.exp),
    wetness: axes.wetness,
    rhShifts: axes.rhShifts,
    stopRhPercent: measure === 'rh' ? level - PAST_LIMIT.rh : Number.POSITIVE_INFINITY,
    stopMassPercent:
      measure === 'mass' ? level - PAST_LIMIT.mass - 3 * priors[limitGroup].sd : Number.POSITIVE_INFINITY,
  })
  const nodes = posteriorNodes(ensemble, axes, sorted.usable, priors, limitGroup)
  const spread = dateSpread(ensemble, nodes, axes, {
    ...prepared,
    limit,
    lnRateSd: Math.log(
      transportFactor(prepared.futureAir.airC + FUTURE_TEMPERATURE_SD_K) /
        transportFactor(prepared.futureAir.airC),
    ),
    never: axes.rhShifts.map(
      (shift) => measure === 'rh' && faceAirRh(prepared) + shift >= limit - NEVER_MARGIN_PERCENT,
    ),
  })
  const [p10, p50, p90] = [0.1, 0.5, 0.9].map((p) => dateQuantile(spread, p)) as [
    number | null,
    number | null,
    number | null,
  ]
  const weights = nodes.map((node) => node.weight)
  const factors = nodes.map((node) => Math.exp(node.lnKappa))
  const factor = (p: number) => weightedQuantile(factors, weights, p)
  const mean = (of: (node: (typeof nodes)[number]) => number) =>
    nodes.reduce((sum, node) => sum + node.weight * of(node), 0)
  const middle = {
    kappa: factor(0.5),
    wetness: mean((node) => axes.wetness[node.wet]!),
    offset: mean((node) => node.offset.mean),
  }
  const used = sorted.usable.length
  const assumptions = [
    ...prepared.assumptions,
    material.caution,
    ...(used === 0 ? ['No usable moisture reading yet: the range comes from the material alone.'] : []),
  ]
  const iso = (ms: number | null) => (ms === null ? null : new Date(ms).toISOString())
  const bandEndMs = Math.min(prepared.horizonMs, (p90 ?? p50 ?? prepared.turnMs + 180 * DAY_MS) + 14 * DAY_MS)
  const forecast: ReadyForecast = {
    asOf: new Date(prepared.asOfMs).toISOString(),
    limit: input.limit,
    p10: iso(p10),
    p50: iso(p50),
    p90: iso(p90),
    notReachedProbability: spread.notReached,
    band: humidityBand(ensemble, nodes, axes, prepared.turnMs, Math.max(bandEndMs, prepared.turnMs)),
    learned:
      used === 0 ? null : { diffusivityFactor: { p10: factor(0.1), p50: middle.kappa, p90: factor(0.9) } },
    drivers: driversOf(prepared, limit, middle),
    readingsCheck: [
      ...checkReadings(ensemble, axes, sorted, priors),
      ...sorted.unused.map(({ id, note }) => ({ id, z: null, note })),
    ],
    assumptions,
    why: forecastWhy(
      input,
      prepared,
      { p10: iso(p10), p50: iso(p50), p90: iso(p90) },
      spread.notReached,
      middle,
    ),
    missing: [],
  }
  return { forecast, quantileMs: (p) => dateQuantile(spread, p), middle, prepared }
}

/** The room's humidity as the face of the screed meets it: at the screed's own temperature [%]. */
function faceAirRh({ futureAir }: Prepared): number {
  return (
    (futureAir.rhPercent * vapourPressureAtSaturationPa(futureAir.airC)) /
    vapourPressureAtSaturationPa(futureAir.screedC)
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
