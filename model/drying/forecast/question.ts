import { dayMs, hourMs } from '#model/time.ts'
import { InputError, requireInstant, requireNumber } from '../../errors.ts'
import type { Limit } from '../../rules/limit.ts'
import {
  type Climate,
  type ClimateGap,
  type ClimateSample,
  type ConstantClimate,
  type HourlyClimate,
  hourlyClimate,
  isSeries,
  meanAir,
  requireClimate,
} from '../climate.ts'
import {
  type Exposure,
  type ExposureSeries,
  exposureOf,
  exposureSeries,
  meanExposure,
  noExposure,
} from '../exposure.ts'
import { type Material, tableOf } from '../materials.ts'
import { probeShare, requireLayer } from '../simulate.ts'
import type { PoreTable } from '../tables.ts'
import type { Measure } from './dates.ts'
import type { FactorPrior, PooledPrior } from './pool.ts'
import type { Group, MoistureReading, SortedReadings } from './readings.ts'
import { sortReadings } from './readings.ts'

export interface Curing {
  laidAt: string | number
  /** When the sheet came (or will come) off; null: not known, and the material's usual time is assumed. */
  sealedUntil: string | number | null
  skinSdM?: number
}

/** The room from now on: typed and constant, typed hour by hour, or the mean of the last days recorded. */
export type FutureClimate = Climate | { meanOfRecentDays: number }

export interface ForecastInput {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  pastClimate: Climate
  futureClimate: FutureClimate
  curing: Curing
  readings: readonly MoistureReading[]
  limit: Limit
  /** The day the forecast stands on; nothing later is used. */
  asOf: string | number
  /** Accepted so that a kept call can be replayed; the grid needs no chance. */
  seed?: number
  /** What other bays of the mix taught about ln(diffusivity factor); the material's own spread when left out. */
  prior?: FactorPrior | PooledPrior
  /** One standard deviation of the future room humidity about what was typed [% RH]; 4 unless known better. */
  futureRhSd?: number
}

/** What dries and what was read of it: the inputs without the question. */
export type DryingBay = Omit<ForecastInput, 'limit'>

/** A bay's drying, checked and put on one time axis. */
export interface PreparedBay {
  material: Material
  thicknessMm: number
  faces: 1 | 2
  skinSdM: number
  laidMs: number
  dryMs: number
  asOfMs: number
  turnMs: number
  horizonMs: number
  ageAtDryS: number
  past: ExposureSeries
  pastHourly: HourlyClimate
  future: ExposureSeries | Exposure
  /** The mean air of the future, for drivers, for sentences and for the never-dry check. */
  futureAir: Required<ConstantClimate>
  futureIsConstant: boolean
  gaps: ClimateGap[]
  sorted: SortedReadings
  prior: FactorPrior
  futureRhSd: number
  assumptions: string[]
}

/** The same with the limit that is asked about. */
export interface Prepared extends PreparedBay {
  measure: Measure
  limitGroup: Group
}

/** How far ahead the grid looks. */
export const HORIZON_DAYS = 730
const FUTURE_RH_SD = 4

/** Returns which quantity a limit is about; null when no model of drying can foretell it. */
export function limitQuantity(limit: Limit): { measure: Measure; group: Group } | null {
  if (limit.operator !== '<=' && limit.operator !== '<') return null
  if (/RH/i.test(limit.unit)) return { measure: 'rh', group: 'humidity' }
  if (/CM/.test(limit.unit)) return { measure: 'mass', group: 'carbide' }
  if (/mass/i.test(limit.unit)) return { measure: 'mass', group: 'mass' }
  return null
}

/** Returns the checked inputs, or what is missing as sentences. */
export function prepare(input: ForecastInput): Prepared | { missing: string[] } {
  const bay = prepareBay(input)
  const limitValue = requireNumber('limit.value', input.limit?.value, 0.01, 100, input.limit?.unit)
  const quantity = limitQuantity(input.limit)
  if (quantity?.measure === 'rh') requireNumber('limit.value', limitValue, 30, 99, '% RH')
  if (quantity === null) {
    const missing = `A limit in “${input.limit.unit}” cannot be forecast; only humidity, carbide and mass limits can.`
    return { missing: [missing, ...('missing' in bay ? bay.missing : [])] }
  }
  if ('missing' in bay) return bay
  return { ...bay, measure: quantity.measure, limitGroup: quantity.group }
}

/** Returns the checked inputs of a bay's drying alone, whatever limit it has to keep. */
export function prepareBay(input: DryingBay): PreparedBay | { missing: string[] } {
  requireLayer({ ...input, skinSdM: input.curing?.skinSdM })
  if (input.curing === undefined)
    throw new InputError('curing', 'curing is missing; give laidAt and sealedUntil.')
  const laidMs = requireInstant('curing.laidAt', input.curing.laidAt)
  const asOfMs = requireInstant('asOf', input.asOf)
  const assumptions: string[] = []
  const usualDays = input.material.constants.sealedDays.value
  let dryMs = laidMs + usualDays * dayMs
  if (input.curing.sealedUntil === null) {
    assumptions.push(
      `When the curing sheet came off is not recorded; ${usualDays} days after laying are assumed.`,
    )
  } else dryMs = requireInstant('curing.sealedUntil', input.curing.sealedUntil)
  if (!(dryMs >= laidMs))
    throw new InputError(
      'curing.sealedUntil',
      'curing.sealedUntil is before curing.laidAt; a bay is laid before its sheet comes off.',
    )
  if (asOfMs - dryMs > 10 * 366 * dayMs)
    throw new InputError('asOf', 'asOf is more than ten years after drying began.')

  const prior = input.prior ?? { lnKappaMean: 0, lnKappaSd: input.material.constants.lnKappaSd.value }
  requireNumber('prior.lnKappaMean', prior.lnKappaMean, -3, 3)
  requireNumber('prior.lnKappaSd', prior.lnKappaSd, 0.01, 2)
  const futureRhSd =
    input.futureRhSd === undefined
      ? FUTURE_RH_SD
      : requireNumber('futureRhSd', input.futureRhSd, 0, 20, '% RH')

  const turnMs = Math.max(asOfMs, dryMs)
  const horizonMs = turnMs + HORIZON_DAYS * dayMs
  requireClimate('pastClimate', input.pastClimate)
  const futureAir = futureAirOf(input.pastClimate, input.futureClimate, asOfMs)
  if (futureAir === null) {
    const what =
      'The room climate: neither readings of the last days nor an assumed climate for the coming weeks.'
    return { missing: [what] }
  }

  const skinSdM = input.curing.skinSdM ?? 0
  const known = isSeries(input.pastClimate)
    ? input.pastClimate.filter((sample) => requireInstant('pastClimate', sample.at) <= asOfMs)
    : input.pastClimate
  const noPast = isSeries(known) && known.length === 0
  if (noPast && asOfMs > laidMs)
    assumptions.push(
      'No room climate was recorded before this day; the coming climate is assumed for it too.',
    )
  const hourly = hourlyClimate(
    noPast ? futureAir : known,
    laidMs,
    Math.max(turnMs, laidMs + hourMs),
    'pastClimate',
  )
  for (const gap of hourly.gaps) {
    assumptions.push(
      `Room climate from ${dayOf(gap.fromMs)} to ${dayOf(gap.toMs)} (${Math.round(gap.hours)} h) was not recorded; taken as the ${gap.assumed}.`,
    )
  }
  const table = tableOf(input.material)
  const past = exposureSeries(hourly, skinSdM, table)
  const ageAtDryS =
    dryMs > laidMs ? meanExposure(past, laidMs, dryMs, noExposure()).hydration * ((dryMs - laidMs) / 1000) : 0

  const typed =
    'meanOfRecentDays' in input.futureClimate || !isSeries(input.futureClimate) ? null : input.futureClimate
  const typedSeries = typed !== null
  const future =
    typed === null ? exposureOf(futureAir, skinSdM) : typedFuture(typed, turnMs, futureAir, skinSdM, table)
  assumptions.push(
    `From ${dayOf(turnMs)} on: ${typedSeries ? 'the climate as typed, then its mean, ' : ''}${futureAir.airC.toFixed(1)} °C and ${futureAir.rhPercent.toFixed(0)} % RH (±${futureRhSd} % RH, ±${FUTURE_TEMPERATURE_SD_K} K).`,
  )
  const probeDepthMm = probeShare(input.faces) * input.thicknessMm
  return {
    material: input.material,
    thicknessMm: input.thicknessMm,
    faces: input.faces,
    skinSdM,
    laidMs,
    dryMs,
    asOfMs,
    turnMs,
    horizonMs,
    ageAtDryS,
    past,
    pastHourly: hourly,
    future,
    futureAir,
    futureIsConstant: !typedSeries,
    gaps: hourly.gaps,
    sorted: sortReadings(input.readings, { ...input, dryMs, asOfMs, probeDepthMm }),
    prior,
    futureRhSd,
    assumptions,
  }
}

/** One standard deviation of the future temperature about what was typed. */
export const FUTURE_TEMPERATURE_SD_K = 2

function futureAirOf(past: Climate, future: FutureClimate, asOfMs: number): Required<ConstantClimate> | null {
  if ('meanOfRecentDays' in future) {
    const days = requireNumber('futureClimate.meanOfRecentDays', future.meanOfRecentDays, 1, 60, 'days')
    if (!isSeries(past)) return meanAir([past])
    return meanAir(
      past.filter((sample) => {
        const at = requireInstant('pastClimate', sample.at)
        return at <= asOfMs && at >= asOfMs - days * dayMs
      }),
    )
  }
  requireClimate('futureClimate', future)
  return isSeries(future) ? meanAir(future) : meanAir([future])
}

function typedFuture(
  samples: readonly ClimateSample[],
  turnMs: number,
  mean: Required<ConstantClimate>,
  skinSdM: number,
  table: PoreTable,
): ExposureSeries {
  const endMs = requireInstant('futureClimate', samples.at(-1)!.at)
  const series = hourlyClimate(samples, turnMs, Math.max(endMs, turnMs + hourMs), 'futureClimate')
  // After the last typed hour the mean holds: a last hour made of it is what `meanExposure` carries on.
  const hours = series.hours + 1
  const lengthen = (values: Float64Array, last: number) => {
    const longer = new Float64Array(hours).fill(last)
    longer.set(values)
    return longer
  }
  return exposureSeries(
    {
      ...series,
      hours,
      airC: lengthen(series.airC, mean.airC),
      screedC: lengthen(series.screedC, mean.screedC),
      rhPercent: lengthen(series.rhPercent, mean.rhPercent),
      airSpeedMs: lengthen(series.airSpeedMs, mean.airSpeedMs),
    },
    skinSdM,
    table,
  )
}

export const dayOf = (atMs: number): string => new Date(atMs).toISOString().slice(0, 10)
