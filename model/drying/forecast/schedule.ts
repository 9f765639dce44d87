import { HOUR_MS } from '../climate.ts'
import { type Exposure, type ExposureSeries, meanExposure, noExposure } from '../exposure.ts'
import { selfDesiccation } from '../hydration.ts'

/** The steps that every run of the grid takes, with the mean exposure of each: worked out once, used 525 times. */
export interface Schedule {
  /** Instants, one more than steps [ms]. */
  at: Float64Array
  steps: number
  transport: Float64Array
  pull: Float64Array
  push: Float64Array
  pushAtSaturation: Float64Array
  /** Pore humidity that hydration would take from a sealed body in the step [-]. */
  drop: Float64Array
  /** Equivalent age at the end [s]. */
  equivalentAgeS: number
}

/** How long steps may be: a share of the time since the last shock, never longer than `longestH`. */
export interface StepPolicy {
  firstH: number
  share: number
  longestH: number
}

/** Returns the instants of the steps from `fromMs` to `toMs`, landing on each event between. */
export function stepTimes(
  fromMs: number,
  toMs: number,
  events: readonly number[],
  policy: StepPolicy,
): number[] {
  const stops = [...new Set([...events.filter((at) => at > fromMs && at < toMs), toMs])].sort((a, b) => a - b)
  const times = [fromMs]
  let now = fromMs
  for (const stop of stops) {
    while (stop - now > 1) {
      const wanted =
        Math.min(policy.longestH, policy.firstH + policy.share * ((now - fromMs) / HOUR_MS)) * HOUR_MS
      // The last steps before an event share what is left, so that none is a splinter.
      const left = stop - now
      now = left <= wanted ? stop : left < 2 * wanted ? now + left / 2 : now + wanted
      times.push(now)
    }
    now = stop
  }
  return times
}

/** Returns the schedule of some instants: the climate averaged over each step, hydration carried along. */
export function makeSchedule(
  times: readonly number[],
  series: ExposureSeries | Exposure,
  ageS: number,
  finalDrop: number,
): Schedule {
  const steps = times.length - 1
  const room = () => new Float64Array(steps)
  const schedule: Schedule = {
    at: Float64Array.from(times),
    steps,
    transport: room(),
    pull: room(),
    push: room(),
    pushAtSaturation: room(),
    drop: room(),
    equivalentAgeS: ageS,
  }
  const mean = noExposure()
  for (let k = 0; k < steps; k++) {
    const exposure = 'sums' in series ? meanExposure(series, times[k]!, times[k + 1]!, mean) : series
    schedule.transport[k] = exposure.transport
    schedule.pull[k] = exposure.pull
    schedule.push[k] = exposure.push
    schedule.pushAtSaturation[k] = exposure.pushAtSaturation
    const before = selfDesiccation(schedule.equivalentAgeS, finalDrop)
    schedule.equivalentAgeS += ((times[k + 1]! - times[k]!) / 1000) * exposure.hydration
    schedule.drop[k] = selfDesiccation(schedule.equivalentAgeS, finalDrop) - before
  }
  return schedule
}
