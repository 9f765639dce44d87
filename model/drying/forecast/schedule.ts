import { hourMs } from '#model/time.ts'
import { type Exposure, type ExposureSeries, meanExposure, noExposure } from '../exposure.ts'
import { selfDesiccation } from '../hydration.ts'
import { capacityAt, conductivityAt, type PoreTable } from '../tables.ts'

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
        Math.min(policy.longestH, policy.firstH + policy.share * ((now - fromMs) / hourMs)) * hourMs
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
    schedule.push[k] =
      exposure.push + ('sums' in series && series.table !== null ? feltExcess(exposure, series.table) : 0)
    schedule.pushAtSaturation[k] = exposure.pushAtSaturation
    const before = selfDesiccation(schedule.equivalentAgeS, finalDrop)
    schedule.equivalentAgeS += ((times[k + 1]! - times[k]!) / 1000) * exposure.hydration
    schedule.drop[k] = selfDesiccation(schedule.equivalentAgeS, finalDrop) - before
  }
  return schedule
}

/**
 * Returns what to add to the mean push so that a long step dries as the swings within it would.
 * A bare face follows the room, and the pores feel the mean of transport × potential there, not the mean humidity.
 * A face with a skin hardly follows, so the correction fades with the square of its swing.
 */
function feltExcess({ pull, push, transport, faceHumidity }: Exposure, table: PoreTable): number {
  if (faceHumidity === null || pull === 0) return 0
  // How readily a daily swing is swallowed below the face: conductivity over the depth that the swing reaches.
  const h = Math.min(1, push / pull)
  const swallow = transport * Math.sqrt((conductivityAt(table, h) * capacityAt(table, h) * Math.PI) / DAY_S)
  const follows = pull / (pull + swallow)
  return follows * follows * (pull * faceHumidity - push)
}

const DAY_S = 86_400
