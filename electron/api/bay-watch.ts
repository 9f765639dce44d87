import { bayStory } from '#db/index.ts'
import { lastSeq, touchedSince } from '#db/queries/touched-since.ts'
import type { BayState } from '#model/contract/index.ts'
import { readinessOf } from '#model/readiness/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'
import { type EffectiveRules, rulesOfProject } from '#model/rules/index.ts'
import { bayStateOf } from '#model/watch/bay-state.ts'
import { type Alert, watchBay } from '#model/watch/index.ts'
import type { RecordHolder } from './record-holder.ts'

/** A bay with all that was worked out about it, as of an instant. */
export interface Watched {
  story: BayStory
  rules: EffectiveRules
  alerts: Alert[]
  /** For the covering that its zone is to get. */
  state: BayState
  asOf: number
}

export interface BayWatch {
  /** The bay as it stands now; worked out again only when something about it was written, or time has passed. */
  now: (bay: BayId) => Watched
  /** The bay as it stood at an instant; worked out each time. Without an instant, as it stands now. */
  asOf: (bay: BayId, instant: string | undefined) => Watched
}

interface Kept extends Watched {
  version: number
  points: number
}

/** Alerts change with the clock as well; this old they are still called "now" [ms]. */
export const freshForMs = 20_000
/** Readings kept in memory over all bays: about 100 MB. What was looked at longest ago makes room. */
const mostPoints = 6_000_000

/** Keeps the stories and alerts of bays, each with the position of the last entry that touched it. */
export function watchBays(record: RecordHolder, clock: () => number): BayWatch {
  const kept = new Map<string, Kept>()
  const touched = new Map<string, number>()
  let seen: number | null = null
  let points = 0

  /** A bay's own entry touches only that bay; where it lies and what it is measured with touch the whole project. */
  const catchUp = () => {
    const { read } = record.current()
    if (seen === null) {
      seen = lastSeq(read)
      return
    }
    for (const { seq, project, subject, kind, ofBay } of touchedSince(read, seen)) {
      const alone = ofBay && kind !== 'bay-planned'
      touched.set(alone ? subject : project, seq)
      seen = seq
    }
  }

  const versionOf = (bay: string, project: string) =>
    Math.max(touched.get(bay) ?? 0, touched.get(project) ?? 0)

  const forget = (bay: string) => {
    points -= kept.get(bay)?.points ?? 0
    kept.delete(bay)
  }

  const keep = (bay: string, one: Kept) => {
    forget(bay)
    kept.set(bay, one)
    points += one.points
    for (const oldest of kept.keys()) {
      if (points <= mostPoints || oldest === bay) break
      forget(oldest)
    }
  }

  const now = (bay: BayId): Watched => {
    catchUp()
    const asOf = clock()
    const before = kept.get(bay)
    const unchanged =
      before !== undefined && before.version === versionOf(bay, before.story.project.id) ? before : null
    if (unchanged !== null && asOf - unchanged.asOf < freshForMs && asOf >= unchanged.asOf) {
      keep(bay, unchanged)
      return unchanged
    }
    const story = unchanged?.story ?? bayStory(record.current().read, bay)
    const rules = unchanged?.rules ?? rulesOfProject(story.project.body)
    const one = {
      story,
      rules,
      ...judged(story, asOf, rules),
      asOf,
      version: versionOf(bay, story.project.id),
      points: story.series.reduce((sum, { at }) => sum + at.length, 0),
    }
    keep(bay, one)
    return one
  }

  return {
    now,
    asOf: (bay, instant) => {
      const current = now(bay)
      if (instant === undefined) return current
      const asOf = Date.parse(instant)
      const { story, rules } = current
      return { story: storyAsOf(story, asOf), rules, ...judged(story, asOf, rules), asOf }
    },
  }
}

function judged(story: BayStory, asOf: number, rules: EffectiveRules): Pick<Watched, 'alerts' | 'state'> {
  const alerts = watchBay(story, asOf, rules)
  const readiness = readinessOf(story, story.zone.body.covering, asOf, rules)
  return { alerts, state: bayStateOf(story, alerts, readiness, asOf) }
}
