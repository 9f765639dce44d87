import { dayMs } from '#model/time.ts'
import { requireNumber } from '../../errors.ts'
import { areaOf } from '../../movement/index.ts'
import type { BayId } from '../../record/ids.ts'
import type { BayStory } from '../../record/story.ts'
import { type EffectiveRules, rulesOfProject } from '../../rules/index.ts'
import { type ConstantClimate, isSeries, meanAir } from '../climate.ts'
import { type ForecastDates, forecastDates } from '../forecast/forecast.ts'
import type { ForecastInput } from '../forecast/question.ts'
import { forecastWhy } from '../forecast/reasons.ts'
import type { InputFromStory } from '../from-story/forecast-input.ts'
import type { AirState } from '../humidity-ratio.ts'
import { cautionsOfWay } from './cautions.ts'
import { middleBay } from './middle-bay.ts'
import { outdoorOfStories } from './outdoor.ts'
import { airChangesFromBalance, waterCarriedKgPerDay } from './room-air.ts'
import { type RoomOfWay, roomOfWay } from './room-of-way.ts'
import type {
  Known,
  RoomFacts,
  RoomPlan,
  WayDates,
  WayFound,
  WayId,
  WayLacking,
  WaysFound,
} from './shapes.ts'
import { type DryingBay, waterOf, weekMeanKgPerDay } from './water.ts'

/** Doors and windows shut, nobody sealed anything (our judgement). */
export const ASSUMED_SHUT_AIR_CHANGES = 0.5

export interface WaysQuestion {
  /** The day the comparison stands on [epoch ms]. */
  asOf: number
  ways: readonly WayId[]
  plan: RoomPlan
  /** What a forecast of a bay starts from; the same as for its own forecast. */
  inputOf: (story: BayStory) => InputFromStory
  /** Says an instant as a day on the site's calendar. */
  dayOf: (atMs: number) => string
}

/** A bay that can be forecast, with its forecast in the room as it is. */
export interface KnownBay extends DryingBay {
  story: BayStory
  input: ForecastInput
}

/**
 * Returns what waiting, ventilating, heating, drying and heating the floor would do to bays of one room, side by side.
 * Each way gives the room another air from now on (or from the end of curing) and each bay a full forecast in it, from
 * the same readings; the bay that is dry last gives the dates. The humidity of a ventilated or a shut room is the balance
 * of what the floor gives off in the first week and what outdoor air carries away, and stays as it is then: later the
 * floor gives less, so these dates err late. A way plans; it never releases a bay.
 * @param stories the bays of one room
 * @param onProgress told after each forecast
 * @returns each way asked for, with its dates or with what is missing to work it out; bays that cannot be forecast apart
 * @errors InputError naming the field of the plan that is impossible
 * @source `forecastReady`; balance of water vapour
 * @provenance our judgement
 */
export function waysOfStories(
  stories: readonly BayStory[],
  question: WaysQuestion,
  onProgress: (done: number, of: number) => void = () => undefined,
): WaysFound {
  requirePlan(question.plan)
  const { asOf, plan, ways } = question
  const steps = stories.length * (1 + ways.filter((way) => way !== 'wait').length)
  let done = 0
  const step = () => onProgress(Math.min(++done, steps), steps)

  const bays: KnownBay[] = []
  const without: WaysFound['without'] = []
  const assumptions = new Set<string>()
  for (const story of stories) {
    const found = knownBay(story, question)
    step()
    if ('missing' in found) without.push({ bay: story.bay.id, missing: found.missing })
    else {
      bays.push(found.bay)
      for (const line of found.assumptions) assumptions.add(line)
    }
  }
  const [first] = bays
  const iso = new Date(asOf).toISOString()
  if (first === undefined) return { asOf: iso, room: null, ways: [], without, assumptions: [] }

  const now = meanOf(bays)
  const outdoor = plan.outdoor === null ? outdoorOfStories(stories, asOf) : typedAir(plan.outdoor)
  const room: RoomFacts = {
    areaM2: bays.reduce((sum, { areaM2 }) => sum + areaM2, 0),
    volumeM3: plan.heightM * bays.reduce((sum, { areaM2 }) => sum + areaM2, 0),
    now: { airC: now.airC, rhPercent: now.rhPercent },
    outdoor,
    shutAirChangesPerH: { value: 0, from: 'assumed', because: '' },
  }
  room.shutAirChangesPerH = shutAirChanges(bays, now, room, plan)
  const scene: Scene = { bays, now, room, question, rules: rulesOfProject(first.story.project.body) }
  const waiting = findWay('wait', scene, step)
  if ('lacks' in waiting) throw new Error('Waiting needs nothing that is not known.')
  return {
    asOf: iso,
    room,
    ways: ways.map((way) => (way === 'wait' ? waiting : comparedTo(waiting, findWay(way, scene, step)))),
    without,
    assumptions: [...assumptions],
  }
}

interface Scene {
  bays: KnownBay[]
  now: Required<ConstantClimate>
  room: RoomFacts
  question: WaysQuestion
  rules: EffectiveRules
}

function requirePlan(plan: RoomPlan): void {
  requireNumber('heightM', plan.heightM, 1.5, 30, 'm')
  requireNumber('airChangesPerH', plan.airChangesPerH, 0.05, 30, '1/h')
  requireNumber('heatToC', plan.heatToC, 5, 45, '°C')
  requireNumber('dryToRhPercent', plan.dryToRhPercent, 15, 90, '% RH')
  requireNumber('heatedScreedC', plan.heatedScreedC, 15, 50, '°C')
  if (plan.shutAirChangesPerH !== null)
    requireNumber('shutAirChangesPerH', plan.shutAirChangesPerH, 0.01, 10, '1/h')
  if (plan.outdoor !== null) {
    requireNumber('outdoor.airC', plan.outdoor.airC, -40, 50, '°C')
    requireNumber('outdoor.rhPercent', plan.outdoor.rhPercent, 1, 100, '% RH')
  }
}

function knownBay(
  story: BayStory,
  { inputOf }: WaysQuestion,
): { missing: string[] } | { bay: KnownBay; assumptions: string[] } {
  const { input, missing, assumptions } = inputOf(story)
  if (input === null) return { missing }
  const dates = forecastDates(input)
  if ('missing' in dates) return { missing: dates.missing }
  const { prepared, middle } = dates
  // With no past recorded, what the room is assumed to have been must not change with what is done from now on.
  const noPast = isSeries(input.pastClimate) && input.pastClimate.length === 0
  return {
    bay: {
      story,
      input: noPast ? { ...input, pastClimate: prepared.futureAir } : input,
      areaM2: areaOf(story.bay.body.outline),
      dates,
      bay: middleBay(prepared, middle),
    },
    assumptions: [...assumptions, prepared.material.caution],
  }
}

function meanOf(bays: readonly KnownBay[]): Required<ConstantClimate> {
  return meanAir(bays.map(({ dates }) => dates.prepared.futureAir))!
}

function typedAir(value: AirState): Known<AirState> {
  return { value, from: 'typed', because: 'typed on this page' }
}

function shutAirChanges(
  bays: readonly KnownBay[],
  now: Required<ConstantClimate>,
  { volumeM3, outdoor }: RoomFacts,
  { shutAirChangesPerH }: RoomPlan,
): Known<number> {
  if (shutAirChangesPerH !== null)
    return { value: shutAirChangesPerH, from: 'typed', because: 'typed on this page' }
  const drying = bays.every(
    ({ input, dates: { prepared } }) =>
      prepared.asOfMs > prepared.dryMs + 3 * dayMs && 'meanOfRecentDays' in input.futureClimate,
  )
  const worked =
    outdoor === null || !drying
      ? null
      : airChangesFromBalance({
          volumeM3,
          room: now,
          outdoor: outdoor.value,
          waterKgPerDay: weekMeanKgPerDay(bays, now),
        })
  return worked === null
    ? { value: ASSUMED_SHUT_AIR_CHANGES, from: 'assumed', because: 'assumed for shut doors and windows' }
    : {
        value: worked,
        from: 'worked out',
        because: 'from the water this floor gives off and how much damper the room is than outdoors',
      }
}

function findWay(way: WayId, scene: Scene, step: () => void): WayFound | WayLacking {
  const { bays, now, room, question, rules } = scene
  const air = roomOfWay({ way, bays, now, room, plan: question.plan })
  if ('lacks' in air) {
    for (const _ of bays) step()
    return { way, lacks: air.lacks }
  }
  const done = bays.map((bay) => {
    if (way === 'wait') return { bay, input: bay.input, dates: bay.dates }
    const input = { ...bay.input, futureClimate: air.climate }
    const dates = forecastDates(input)
    step()
    if ('missing' in dates) throw new Error(`A bay that had a forecast has none: ${dates.missing.join(' ')}`)
    return { bay, input, dates }
  })
  const dated = done.map((one) => ({ ...one, days: datesOf(one.dates) }))
  const slowest = dated.reduce((last, one) => (isLater(one.days.p50, last.days.p50) ? one : last))
  const latest = (of: (days: WayDates) => string | null) =>
    dated.reduce<string | null>(
      (last, { days }, i) => (i === 0 || isLater(of(days), last) ? of(days) : last),
      null,
    )
  const dates: WayDates = {
    p10: latest(({ p10 }) => p10),
    p50: latest(({ p50 }) => p50),
    p90: latest(({ p90 }) => p90),
    notReachedProbability: Math.max(...dated.map(({ days }) => days.notReachedProbability)),
  }
  const from = Math.max(...bays.map((bay) => bay.dates.prepared.turnMs))
  const { prepared, middle } = slowest.dates
  return {
    way,
    ...dates,
    from: new Date(from).toISOString(),
    room: { airC: air.climate.airC, rhPercent: air.climate.rhPercent, screedC: air.climate.screedC },
    airChangesPerH: air.airChangesPerH,
    whyRoom: air.why,
    daysGained: way === 'wait' ? 0 : null,
    water: waterOf({
      bays,
      airOf: ({ dates: own }) => (way === 'wait' ? own.prepared.futureAir : air.climate),
      untilMs: endOf(dates, from),
      leakKgPerDay: leakOf(air, room),
    }),
    bays: dated.map(({ bay, days }) => ({ bay: bay.story.bay.id, ...days })),
    slowest: slowest.bay.story.bay.id as BayId,
    cautions: cautionsOfWay({
      way,
      air: air.climate,
      now,
      outdoor: room.outdoor?.value ?? null,
      bays: bays.map(({ story, input, dates: own }) => ({
        name: `Bay ${story.bay.body.name}`,
        input,
        prepared: own.prepared,
      })),
      rules,
      dayOf: question.dayOf,
    }),
    why: forecastWhy(slowest.input, prepared, slowest.days, slowest.days.notReachedProbability, middle),
  }
}

/** Water that air which leaks into a room with shut windows brings [kg/day]. */
function leakOf(air: RoomOfWay, { outdoor, volumeM3 }: RoomFacts): number | null {
  if (outdoor === null || air.airChangesPerH === null) return null
  const exchange = { volumeM3, airChangesPerH: air.airChangesPerH, room: air.climate, outdoor: outdoor.value }
  return -waterCarriedKgPerDay(exchange)
}

function datesOf({ quantileMs, notReachedProbability }: ForecastDates): WayDates {
  const iso = (p: number) => {
    const at = quantileMs(p)
    return at === null ? null : new Date(at).toISOString()
  }
  return { p10: iso(0.1), p50: iso(0.5), p90: iso(0.9), notReachedProbability }
}

/** Until when water is counted: the likely date, or the cautious one where that may be past. */
function endOf({ p50, p90 }: WayDates, from: number): number | null {
  if (p50 === null) return null
  const likely = Date.parse(p50)
  return likely > from + dayMs || p90 === null ? likely : Date.parse(p90)
}

/** No date is later than any date. */
function isLater(a: string | null, b: string | null): boolean {
  if (b === null) return false
  return a === null || Date.parse(a) > Date.parse(b)
}

function comparedTo(waiting: WayFound, way: WayFound | WayLacking): WayFound | WayLacking {
  if ('lacks' in way || way.p50 === null || waiting.p50 === null) return way
  return { ...way, daysGained: (Date.parse(waiting.p50) - Date.parse(way.p50)) / dayMs }
}
