import type { BayState } from '#model/contract/index.ts'
import { readinessOf } from '#model/readiness/index.ts'
import type { BayStory } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import {
  type Alert,
  bayStateOf,
  dueOfBay,
  type Reminder,
  type TodayLine,
  todayLineOf,
  watchBay,
} from '#model/watch/index.ts'

/** A bay as of an instant. What is worked out from its story is worked out when it is first asked for, and once. */
export interface Watched {
  story: BayStory
  rules: EffectiveRules
  asOf: number
  alerts: () => Alert[]
  /** For the covering that its zone is to get. */
  state: () => BayState
  /** Null when the bay needs nothing now. */
  today: () => TodayLine | null
  /** What falls due today and tomorrow on the site's calendar. */
  ahead: () => Reminder[]
}

/** Returns a bay, ready to be asked. */
export function watched(story: BayStory, rules: EffectiveRules, asOf: number): Watched {
  const alerts = once(() => watchBay(story, asOf, rules))
  const readiness = once(() => readinessOf(story, story.zone.body.covering, asOf, rules))
  return {
    story,
    rules,
    asOf,
    alerts,
    state: once(() => bayStateOf(story, alerts(), readiness(), asOf)),
    today: once(() => todayLineOf(story, asOf, rules)),
    ahead: once(() => dueOfBay(story, asOf, 2, rules)),
  }
}

/** Laid, and neither covered nor ready: a bay for which there is something to estimate. */
export function isDrying({ state }: Watched): boolean {
  const { word, laidAt } = state()
  return laidAt !== null && word !== 'covered' && word !== 'ready'
}

function once<T>(work: () => T): () => T {
  let kept: { value: T } | null = null
  return () => {
    kept ??= { value: work() }
    return kept.value
  }
}
