import { dayMs } from '#model/time.ts'
import { type BayStory, storyAsOf } from '../../record/story.ts'
import type { Covering } from '../../record/words.ts'
import { type EffectiveRules, type Limit, rulesOfProject } from '../../rules/index.ts'
import type { BayLesson } from '../forecast/pool.ts'
import type { DryingBay, ForecastInput, FutureClimate } from '../forecast/question.ts'
import { pastClimateOf } from './climate.ts'
import { laidAtOf, sealedUntilOf } from './curing.ts'
import { materialOf, thicknessOf } from './layer.ts'
import { limitOfStory } from './limit.ts'
import { priorFrom } from './prior.ts'
import { readingsOf } from './readings.ts'

export interface StoryQuestion {
  covering: Covering
  /** The day the forecast stands on [epoch ms]; nothing that happened later is used. */
  asOf: number
  rules?: EffectiveRules
  /** What other bays of the same mix taught by `asOf`; never the bay itself. */
  lessons?: readonly BayLesson[]
}

export interface InputFromStory {
  /** Null when something is missing without which nothing can be foretold. */
  input: ForecastInput | null
  limit: Limit | null
  assumptions: string[]
  /** What is missing, as sentences. */
  missing: string[]
}

/** How many days of readings stand for the weeks to come. */
export const recentDays = 14
/** The room when nobody read it: unheated but closed, in Europe, most of the year. Our judgement. */
export const assumedRoom = { airC: 18, rhPercent: 60 } as const

/**
 * Returns what a forecast of a bay starts from, taken from its story: material and thickness, when it was laid and
 * drying began, the air of the room, the valid moisture tests, the limit for the covering, the room to come as the
 * mean of the last 14 days, and what other bays of the mix taught. What had to be assumed and what is missing is told
 * in sentences.
 * @throws InputError when the project's rules do not exist in this version
 */
export function forecastInputOfStory(story: BayStory, question: StoryQuestion): InputFromStory {
  const { covering, asOf, rules = rulesOfProject(story.project.body), lessons = [] } = question
  const past = storyAsOf(story, asOf)
  const drying = dryingOfStory(past, asOf, rules)
  const limit = limitOfStory(past, covering, rules)
  const missing = [
    ...drying.missing,
    ...(limit === null
      ? [
          'A moisture limit for this covering by the agreed test: neither the contract nor the rules have one.',
        ]
      : []),
  ]
  if (drying.bay === null || limit === null) return { input: null, limit, assumptions: [], missing }
  const prior = priorFrom(past, lessons, drying.bay.material)
  return {
    input: { ...drying.bay, limit, ...(prior.value !== null && { prior: prior.value }) },
    limit,
    assumptions: [...drying.assumptions, prior.assumption],
    missing,
  }
}

/**
 * Returns what dries and what was read of it, whatever limit it has to keep.
 * @param past the story as it stood at `asOf`
 */
export function dryingOfStory(
  past: BayStory,
  asOf: number,
  rules: EffectiveRules = rulesOfProject(past.project.body),
): { bay: Omit<DryingBay, 'prior'> | null; assumptions: string[]; missing: string[] } {
  const material = materialOf(past)
  const laidAt = laidAtOf(past)
  if ('missing' in material || laidAt === null) {
    const missing = [
      ...('missing' in material ? [material.missing] : []),
      ...(laidAt === null
        ? ['When the bay was laid: no finished bay and no finished lift is recorded.']
        : []),
    ]
    return { bay: null, assumptions: [], missing }
  }
  const thickness = thicknessOf(past)
  const usualDays = material.material.constants.sealedDays.value
  const sealedUntil = sealedUntilOf(past, laidAt, asOf, usualDays)
  const climate = pastClimateOf(past, asOf)
  const future = futureOf(climate.samples.at(-1)?.at, asOf)
  const { readings, notes } = readingsOf(past, rules, thickness.value, asOf)
  const told = [
    thickness.assumption,
    sealedUntil.assumption,
    ...climate.assumptions,
    future.assumption,
    ...notes,
  ]
  return {
    bay: {
      material: material.material,
      thicknessMm: thickness.value,
      faces: 1,
      pastClimate: climate.samples,
      futureClimate: future.climate,
      curing: { laidAt, sealedUntil: sealedUntil.value },
      readings,
      asOf,
    },
    assumptions: told.filter((sentence) => sentence !== null),
    missing: [],
  }
}

function futureOf(
  lastReadAt: string | number | undefined,
  asOf: number,
): { climate: FutureClimate; assumption: string } {
  const recent = typeof lastReadAt === 'number' && lastReadAt >= asOf - recentDays * dayMs
  return recent
    ? {
        climate: { meanOfRecentDays: recentDays },
        assumption: `The room is assumed to stay as it was on average in the last ${recentDays} days.`,
      }
    : {
        climate: assumedRoom,
        assumption: `No room climate was recorded in the last ${recentDays} days; ${assumedRoom.airC} °C and ${assumedRoom.rhPercent} % RH are assumed (our judgement). Put a logger in the room.`,
      }
}
