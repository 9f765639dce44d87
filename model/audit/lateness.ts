import type { StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { hoursBetween } from '#model/watch/facts/time.ts'

/** The facts that decide an argument: when it was laid and covered, how thick it is, what was tested, who let it go. */
export const decisiveKinds: readonly KindName[] = [
  'edge-strip-fitted',
  'pipes-pressure-tested',
  'bay-finished',
  'thickness-measured',
  'sheet-on',
  'sheet-off',
  'screed-temperature-read',
  'moisture-read',
  'soundness-tested',
  'hold-point-released',
  'bay-decided',
]

/** A fact that was first written down long after it happened. */
export interface LateEntry {
  entry: StoryEntry
  hours: number
  decisive: boolean
}

/**
 * Hours from the happening, as it is said to be now, to the first time that anybody wrote it down. A correction does not
 * make a fact late; one that moves it into the past does. A logger writes by itself: its file counts from its last reading.
 */
export function hoursLate({ kind, body, happenedAt, versions }: StoryEntry): number {
  const from = kind === 'logger-imported' ? Date.parse(body.lastAt) : happenedAt
  return hoursBetween(from, versions[0]!.recordedAt)
}

/** What a person wrote about the bay itself: the facts that can be late. */
export function writtenFacts(story: BayStory): StoryEntry[] {
  return story.entries.filter(
    ({ subject, withdrawn, kind }) => subject === story.bay.id && !withdrawn && kind !== 'bay-planned',
  )
}

/** Returns the late facts of a bay, the latest first. */
export function lateEntriesOf(story: BayStory, rules: EffectiveRules): LateEntry[] {
  const limit = rules.limits['record.lateHours'].value
  return writtenFacts(story)
    .map((entry) => ({ entry, hours: hoursLate(entry), decisive: decisiveKinds.includes(entry.kind) }))
    .filter(({ hours }) => hours > limit)
    .sort((a, b) => b.hours - a.hours)
}
