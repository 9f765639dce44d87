import { bayStory } from '#db/index.ts'
import { lastSeq, touchedSince } from '#db/queries/touched-since.ts'
import type { BayId } from '#model/record/ids.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'
import { rulesOfProject } from '#model/rules/index.ts'
import type { RecordHolder } from './record-holder.ts'
import { type Watched, watched } from './watched.ts'

export interface BayWatch {
  /** The bay as it stands now; worked out again only when something about it was written, or time has passed. */
  now: (bay: BayId) => Watched
  /** The bay as it stood at an instant; worked out each time. Without an instant, as it stands now. */
  asOf: (bay: BayId, instant: string | undefined) => Watched
}

interface Kept {
  bay: Watched
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
      touched.set(ofBay && kind !== 'bay-planned' ? subject : project, seq)
      seen = seq
    }
  }

  const versionOf = ({ bay, project }: BayStory) =>
    Math.max(touched.get(bay.id) ?? 0, touched.get(project.id) ?? 0)

  const forget = (bay: string) => {
    points -= kept.get(bay)?.points ?? 0
    kept.delete(bay)
  }

  const keep = (bay: Watched) => {
    const { id } = bay.story.bay
    forget(id)
    const own = bay.story.series.reduce((sum, { at }) => sum + at.length, 0)
    kept.set(id, { bay, version: versionOf(bay.story), points: own })
    points += own
    for (const oldest of kept.keys()) {
      if (points <= mostPoints || oldest === id) break
      forget(oldest)
    }
    return bay
  }

  const now = (id: BayId): Watched => {
    catchUp()
    const asOf = clock()
    const before = kept.get(id)
    if (before === undefined || before.version !== versionOf(before.bay.story)) {
      const story = bayStory(record.current().read, id)
      return keep(watched(story, rulesOfProject(story.project.body), asOf))
    }
    const { bay } = before
    const isFresh = asOf >= bay.asOf && asOf - bay.asOf < freshForMs
    return keep(isFresh ? bay : watched(bay.story, bay.rules, asOf))
  }

  return {
    now,
    asOf: (id, instant) => {
      const bay = now(id)
      if (instant === undefined) return bay
      const asOf = Date.parse(instant)
      return watched(storyAsOf(bay.story, asOf), bay.rules, asOf)
    },
  }
}
