import {
  boxReading,
  type DryingResult,
  type HeatingStep,
  materials,
  simulateDrying,
} from '#model/drying/index.ts'
import type { BayPlan } from './scenario.ts'
import { hourMs } from './site-clock.ts'
import type { RoomAir } from './weather.ts'

/** The bay as it "really" dries in the demonstration: known to the script that makes the readings, not to the app. */
export interface TrueBay {
  probeRhPercent: (at: number) => number
  boxRhPercent: (setAt: number, hours: number) => number
  massPercent: (at: number) => number
  roomC: (at: number) => number
  roomRhPercent: (at: number) => number
}

/** Dries the bay in its own room with its own speed, by the drying model that the app uses as well. */
export function dryForReal(
  plan: BayPlan,
  room: RoomAir,
  finishAt: number,
  uncoveredAt: number,
  endAt: number,
  heating: HeatingStep[],
): TrueBay {
  const result: DryingResult = simulateDrying({
    material: plan.screed === 'calcium sulfate' ? materials.calciumSulfateScreed : materials.cementSandScreed,
    thicknessMm: plan.thicknessMm,
    faces: 1,
    climate: room.at.map((at, i) => ({ at, airC: room.airC[i]!, rhPercent: room.rhPercent[i]! })),
    startAt: finishAt,
    sealedUntil: uncoveredAt,
    endAt,
    outputEvery: 'hour',
    diffusivityFactor: plan.dryingSpeed,
    heating,
  })
  const hourIn = (list: readonly number[], first: number, at: number) =>
    Math.min(list.length - 1, Math.max(0, Math.round((at - first) / hourMs)))
  const from = (values: number[]) => (at: number) => values[hourIn(values, result.at[0]!, at)]!
  return {
    probeRhPercent: from(result.rhAtFortyPercent),
    boxRhPercent: (setAt, hours) => boxReading({ state: result.state(setAt), hours }),
    massPercent: from(result.massPercent),
    roomC: (at) => room.airC[hourIn(room.airC, room.at[0]!, at)]!,
    roomRhPercent: (at) => room.rhPercent[hourIn(room.rhPercent, room.at[0]!, at)]!,
  }
}
