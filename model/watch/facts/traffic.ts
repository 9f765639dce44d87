import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { TrafficClass } from '#model/record/words.ts'
import { daysBetween } from './time.ts'

/** Feet spread their load; everything else presses at a point or runs on wheels. */
const onFoot: readonly TrafficClass[] = ['foot']

export interface TrafficEvent {
  at: number
  entry: StoryEntryOf<'traffic-seen'>
  kind: 'foot' | 'point or wheel'
  /** Null when the bay was not yet finished. */
  ageDays: number | null
}

/** Returns what went over the bay, oldest first. A load on a point or on wheels counts as such whatever its class. */
export function trafficEvents(story: BayStory, t0: number | null): TrafficEvent[] {
  return entriesOf(story, 'traffic-seen').map((entry) => ({
    at: entry.happenedAt,
    entry,
    kind:
      onFoot.includes(entry.body.traffic) && (entry.body.contact ?? 'spread') === 'spread'
        ? 'foot'
        : 'point or wheel',
    ageDays: t0 === null || entry.happenedAt < t0 ? null : daysBetween(t0, entry.happenedAt),
  }))
}
