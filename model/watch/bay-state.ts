import type { BayState } from '#model/contract/shapes.ts'
import { daysByRule } from '#model/drying/index.ts'
import type { Readiness } from '#model/readiness/verdict.ts'
import { type BayStory, entriesOf, storyAsOf } from '#model/record/story.ts'
import { coverings } from '#model/record/words.ts'
import type { Alert } from './alert.ts'
import { isOpen } from './alerts.ts'
import { coverSpans, openSpans } from './facts/cover.ts'
import { lifeOf } from './facts/life.ts'
import { dayMs, daysBetween, rounded } from './facts/time.ts'
import { worse } from './rule.ts'

/** A bay not yet dry by the planning rule is said to be drying; later, a missing test is what it lacks. */
const breakMm = { 'cement-sand': 50, 'fast drying': 50, 'calcium sulfate': 40 } as const

/**
 * Returns the one word for a bay on the plan, with the alerts still open and the reason.
 *
 * @param alerts of this bay as of the same instant, from `watchBay`.
 * @param readiness for the covering of the zone; null where it was not asked, and then the bay is never called ready.
 * @param asOf epoch milliseconds.
 */
export function bayStateOf(
  story: BayStory,
  alerts: readonly Alert[],
  readiness: Readiness | null,
  asOf: number,
): BayState {
  const open = alerts.filter(isOpen)
  const cut = storyAsOf(story, asOf)
  const life = lifeOf(cut, asOf)
  const common = {
    laidAt: life.t0 === null ? null : new Date(life.t0).toISOString(),
    openAlerts: open.length,
    worst: open.length === 0 ? null : open.map(({ severity }) => severity).reduce(worse),
  }
  const state = (word: BayState['word'], because: string): BayState => ({ word, ...common, because })

  if (life.covering !== null) return state('covered', `Covered with ${life.covering.body.covering}.`)
  const stop = open.find(({ severity }) => severity === 'stop')
  if (stop !== undefined) return state('stopped', `${stop.title}. ${stop.whatToDo}`)
  if (life.startedAt === null || life.t0 === null) return state('planned', 'Not laid yet.')
  if (life.t0From !== 'finish') return state('curing', 'Being laid; the finish is not recorded.')
  const age = `Day ${Math.floor(daysBetween(life.t0, asOf))}`
  if (life.cementBound) {
    const last = coverSpans(cut).at(-1)
    const lies = last !== undefined && last.until === null
    if (lies) return state('curing', `${age}, under the sheet.`)
    if (last === undefined && asOf - life.t0 < dayMs) return state('curing', `${age}, not yet covered.`)
  }
  if (readiness?.verdict === 'ready') return state('ready', `Ready for: ${coveringText(readiness.covering)}.`)
  if (readiness?.verdict === 'not proven') {
    const unknown = readiness.conditions.find(({ state }) => state === 'unknown')
    const tested = entriesOf(cut, 'moisture-read').some(({ body }) => body.method !== 'electrical survey')
    if (tested || asOf >= dryByRule(cut, life.t0, life.cementBound)) {
      return state('not proven', `${unknown?.name}: ${unknown?.because}`)
    }
    return state('drying', `${age}, not tested yet.`)
  }
  const notMet = readiness?.conditions.find(({ state }) => state === 'not met')
  return state('drying', notMet === undefined ? `${age}.` : `${age}. ${notMet.name}: ${notMet.because}`)
}

/** When the planning rule lets one expect it to be dry: a reason to ask for a test, never a reason to cover. */
function dryByRule(story: BayStory, t0: number, cementBound: boolean): number {
  const { screed, designThicknessMm } = story.bay.body
  const start = cementBound ? (openSpans(coverSpans(story), t0).at(-1)?.from ?? t0) : t0
  return start + daysByRule({ thicknessMm: rounded(designThicknessMm, 1), breakMm: breakMm[screed] }) * dayMs
}

function coveringText(covering: string): string {
  const known: Readonly<Record<string, string>> = coverings
  return known[covering] ?? covering
}
