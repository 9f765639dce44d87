import { hourMs } from '#model/time.ts'
import { saturationPressurePa } from '../air/index.ts'
import type { HourlyClimate } from './climate.ts'
import { humidityOfPotential, type PoreTable, potentialAt } from './tables.ts'
import { faceTransfer, hydrationFactor, transportFactor } from './vapour.ts'

/** What a stretch of climate does to a bay, averaged over the stretch. Flux from the face is pull × h − push. */
export interface Exposure {
  /** Transport in the pores against 20 °C [-]. */
  transport: number
  /** Transfer coefficient × saturation pressure at the face [kg/(m² s)]. */
  pull: number
  /** Transfer coefficient × vapour pressure of the air [kg/(m² s)]. */
  push: number
  /** Transfer coefficient × saturation pressure of the air: what 100 % more room humidity would push [kg/(m² s)]. */
  pushAtSaturation: number
  /** Hydration against 20 °C [-]. */
  hydration: number
  /** Pore humidity at the face of air-dry screed, averaged as the pores feel it; null where that was not asked. */
  faceHumidity: number | null
}

/** Returns the exposure of constant air to a face with a skin of `skinSdM` metres of still air. */
export function exposureOf(
  air: { airC: number; screedC: number; rhPercent: number; airSpeedMs: number },
  skinSdM: number,
): Exposure {
  const transfer = faceTransfer(air.airSpeedMs, skinSdM, air.airC)
  const pushAtSaturation = transfer * saturationPressurePa(air.airC)
  return {
    transport: transportFactor(air.screedC),
    pull: transfer * saturationPressurePa(air.screedC),
    push: (pushAtSaturation * air.rhPercent) / 100,
    pushAtSaturation,
    hydration: hydrationFactor(air.screedC),
    faceHumidity: null,
  }
}

const QUANTITIES = 6

/** Running sums of the exposure, so that the mean over any stretch costs two look-ups. */
export interface ExposureSeries {
  startMs: number
  hours: number
  /** Sum up to the beginning of each hour, six numbers an hour. */
  sums: Float64Array
  /** Set when the sums hold what the pores feel at the face, for steps longer than the daily swing. */
  table: PoreTable | null
}

/**
 * Returns the running sums of an hourly climate's exposure.
 * @param table the pore law of the screed, when means over a day or more will be asked for: transport is not
 * proportional to humidity, so the mean humidity of a swinging climate is not what the pores feel
 */
export function exposureSeries(
  climate: HourlyClimate,
  skinSdM: number,
  table: PoreTable | null = null,
): ExposureSeries {
  const sums = new Float64Array((climate.hours + 1) * QUANTITIES)
  let last: { key: number[]; exposure: Exposure } | null = null
  for (let i = 0; i < climate.hours; i++) {
    const air = {
      airC: climate.airC[i]!,
      screedC: climate.screedC[i]!,
      rhPercent: climate.rhPercent[i]!,
      airSpeedMs: climate.airSpeedMs[i]!,
    }
    const key = [air.airC, air.screedC, air.rhPercent, air.airSpeedMs]
    if (last === null || key.some((value, k) => value !== last!.key[k]))
      last = { key, exposure: exposureOf(air, skinSdM) }
    const { transport, pull, push, pushAtSaturation, hydration } = last.exposure
    const felt = table === null ? 0 : transport * potentialAt(table, Math.min(1, push / pull))
    const at = i * QUANTITIES
    const hour = [transport, pull, push, pushAtSaturation, hydration, felt]
    for (let k = 0; k < QUANTITIES; k++) sums[at + QUANTITIES + k] = sums[at + k]! + hour[k]!
  }
  return { startMs: climate.startMs, hours: climate.hours, sums, table }
}

/** Writes the mean exposure between two instants into `into`; beyond the series its last hour holds. */
export function meanExposure(series: ExposureSeries, fromMs: number, toMs: number, into: Exposure): Exposure {
  const { sums, hours, startMs } = series
  const a = (fromMs - startMs) / hourMs
  const b = Math.max((toMs - startMs) / hourMs, a + 1e-9)
  const share = 1 / (b - a)
  const sumAt = (x: number, k: number) => {
    if (x <= 0) return x * sums[k + QUANTITIES]!
    const j = Math.min(hours - 1, Math.floor(x))
    const base = sums[j * QUANTITIES + k]!
    return base + (x - j) * (sums[(j + 1) * QUANTITIES + k]! - base)
  }
  into.transport = (sumAt(b, 0) - sumAt(a, 0)) * share
  into.pull = (sumAt(b, 1) - sumAt(a, 1)) * share
  into.push = (sumAt(b, 2) - sumAt(a, 2)) * share
  into.pushAtSaturation = (sumAt(b, 3) - sumAt(a, 3)) * share
  into.hydration = (sumAt(b, 4) - sumAt(a, 4)) * share
  into.faceHumidity =
    series.table === null
      ? null
      : humidityOfPotential(series.table, ((sumAt(b, 5) - sumAt(a, 5)) * share) / into.transport)
  return into
}

export const noExposure = (): Exposure => ({
  transport: 1,
  pull: 0,
  push: 0,
  pushAtSaturation: 0,
  hydration: 1,
  faceHumidity: null,
})
