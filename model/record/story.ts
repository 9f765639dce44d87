import type { SeriesQuantity } from './climate.ts'
import type { StoryEntry, StoryEntryOf } from './entry.ts'
import type { BayId, EntryId, FloorId, ProjectId, ZoneId } from './ids.ts'
import type { BodyOf, KindName } from './kinds.ts'

/** Readings of one logger column: parallel arrays, times in epoch milliseconds, ascending. */
export interface StorySeries {
  series: number
  entry: EntryId
  quantity: SeriesQuantity
  /** Set when the readings were made by a model and not measured. */
  madeBy: string | null
  at: number[]
  value: number[]
}

/**
 * Everything the record knows of one bay: the bay, what it stands in, what happened to it. It is plain JSON, so
 * that a verdict given on a day can be saved and replayed.
 */
export interface BayStory {
  storyVersion: 1
  timeZone: string
  project: { id: ProjectId; body: BodyOf<'project-opened'> }
  floor: { id: FloorId; body: BodyOf<'floor-added'> }
  zone: { id: ZoneId; body: BodyOf<'zone-added'> }
  bay: { id: BayId; body: BodyOf<'bay-planned'> }
  /** Entries about the bay, its zone and floor, the project's forecasts and the instruments used; by happenedAt. */
  entries: StoryEntry[]
  series: StorySeries[]
  /** The other bays of the zone and floor, for joints and comparison. */
  neighbours: { id: BayId; body: BodyOf<'bay-planned'> }[]
}

/** The standing (not withdrawn) entries of one kind, oldest first. */
export function entriesOf<K extends KindName>(story: BayStory, kind: K): StoryEntryOf<K>[] {
  return story.entries.filter(
    (entry): entry is StoryEntry & StoryEntryOf<K> => entry.kind === kind && !entry.withdrawn,
  ) as StoryEntryOf<K>[]
}

/**
 * The story as it stood at a past instant: only what had happened by `asOf` and, when `knownAt` is given, only
 * the versions that had been recorded by then. Replaying an old verdict must not know the future.
 */
export function storyAsOf(
  story: BayStory,
  asOf: number,
  knownAt: number = Number.POSITIVE_INFINITY,
): BayStory {
  const entries = story.entries.flatMap((entry): StoryEntry[] => {
    const known = entry.versions.filter((version) => version.recordedAt <= knownAt)
    const last = known.at(-1)
    if (last === undefined) return []
    const withdrawn = last.kind === 'entry-withdrawn'
    const standing = known.findLast((version) => version.kind !== 'entry-withdrawn')
    if (standing === undefined || standing.happenedAt > asOf) return []
    return [
      {
        ...entry,
        versions: known,
        withdrawn,
        happenedAt: standing.happenedAt,
        recordedAt: standing.recordedAt,
        person: standing.person,
        source: standing.source,
        body: standing.body,
      } as StoryEntry,
    ]
  })
  const kept = new Set(entries.filter((entry) => !entry.withdrawn).map((entry) => entry.id))
  const series = story.series
    .filter((one) => kept.has(one.entry))
    .map((one) => {
      const end = one.at.findIndex((at) => at > asOf)
      return end === -1 ? one : { ...one, at: one.at.slice(0, end), value: one.value.slice(0, end) }
    })
  return { ...story, entries, series }
}
