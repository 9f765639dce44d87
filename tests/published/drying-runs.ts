import {
  type ClimateSample,
  type ConstantClimate,
  type DryingResult,
  type Material,
  materials,
  simulateDrying,
} from '#model/drying/index.ts'

/** What the tables of drying share: one bay under a constant room, from laying. */

const DAY_MS = 86_400_000
const LAID_MS = Date.parse('2026-01-05T08:00:00Z')
const YEARS_2 = 730

export const screeds = {
  screed: materials.cementSandScreed,
  dense: materials.denseConcrete,
  sulfate: materials.calciumSulfateScreed,
} as const
export type ScreedName = keyof typeof screeds

/** Printed by an earlier program of the same equations, written apart from this one. Nobody outside checked it. */
export const earlierProgram = {
  source: 'an earlier, separate program of the same equations, 40 cells, 1 h steps',
  provenance: 'our judgement',
} as const

export interface ConstantBay {
  material: Material
  thicknessMm: number
  faces?: 1 | 2
  room?: ConstantClimate
  days?: number
  limitPercent?: number
  startRhPercent?: number
  diffusivityFactor?: number
  skinSdM?: number
}

const usualRoom: ConstantClimate = { airC: 20, rhPercent: 60, airSpeedMs: 0.1 }

/** The tables count from one age: curing at 20 °C whatever the room is afterwards. */
function curedWarm(room: ConstantClimate, curedDays: number, days: number): ClimateSample[] {
  const curing = Array.from({ length: curedDays }, (_, day) => ({ ...usualRoom, at: LAID_MS + day * DAY_MS }))
  const dryFromMs = LAID_MS + curedDays * DAY_MS
  const drying = Array.from({ length: days + 1 }, (_, day) => ({ ...room, at: dryFromMs + day * DAY_MS }))
  return [...curing, { ...usualRoom, at: dryFromMs - 1 }, ...drying]
}

/** Returns the run of a bay cured for its material's usual days in a constant room, 20 °C and 60 % unless said. */
export function dryBay(bay: ConstantBay): DryingResult {
  const curedDays = bay.material.constants.sealedDays.value
  return simulateDrying({
    material: bay.material,
    thicknessMm: bay.thicknessMm,
    faces: bay.faces ?? 1,
    climate: bay.room === undefined ? usualRoom : curedWarm(bay.room, curedDays, bay.days ?? YEARS_2),
    startAt: LAID_MS,
    sealedUntil: LAID_MS + curedDays * DAY_MS,
    endAt: LAID_MS + (curedDays + (bay.days ?? YEARS_2)) * DAY_MS,
    outputEvery: 'day',
    stopAtRhPercent: bay.limitPercent,
    startRhPercent: bay.startRhPercent,
    diffusivityFactor: bay.diffusivityFactor,
    skinSdM: bay.skinSdM,
  })
}

/** Returns days of drying, from the end of curing, until 40 % depth is at the limit; NaN when it is not reached. */
export function daysOfDrying(bay: ConstantBay): number {
  const { reachedAt } = dryBay({ limitPercent: 75, ...bay })
  return reachedAt === null
    ? Number.NaN
    : (reachedAt - LAID_MS) / DAY_MS - bay.material.constants.sealedDays.value
}

/** Returns days from laying until 40 % depth is at the limit. */
export const daysFromLaying = (bay: ConstantBay): number =>
  daysOfDrying(bay) + bay.material.constants.sealedDays.value

/** Index of a run's outputs after so many days of drying. */
export const outputAfter = (bay: ConstantBay, days: number): number =>
  bay.material.constants.sealedDays.value + days
export const instantAfter = (bay: ConstantBay, days: number): number =>
  LAID_MS + outputAfter(bay, days) * DAY_MS
