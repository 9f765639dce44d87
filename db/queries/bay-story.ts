import { referencesOf } from '#model/record/check-body.ts'
import type { SeriesQuantity } from '#model/record/climate.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { BayId, EntryId } from '#model/record/ids.ts'
import { kinds } from '#model/record/kinds.ts'
import type { BayStory, StorySeries } from '#model/record/story.ts'
import { UnknownId } from '../errors.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'
import { storyEntriesOf } from './story-entries.ts'

export interface BayStoryOptions {
  /**
   * Tell the story as it was known at this time [epoch ms]: also gives the series of files that were withdrawn later.
   * `storyAsOf` then leaves out what was not known.
   */
  knownAt?: number
}

/** Readings from so long before laying still say something about the base and the room [ms]. */
const beforeLayingMs = 30 * 24 * 3_600_000

/**
 * Everything the record knows of one bay. Entries are those about the bay, its zone and its floor, the weather
 * forecasts of the project, its rates and weights for faults, and the instruments that its entries name; series are those of its logger files, from
 * 30 days before laying onwards. Files that stand withdrawn give no series.
 * @throws UnknownId when there is no such bay
 */
export function bayStory(read: ReadHandle, bay: BayId, options: BayStoryOptions = {}): BayStory {
  return read.sqlite.transaction(() => tell(read, bay, options))()
}

function tell(read: ReadHandle, bay: string, { knownAt }: BayStoryOptions): BayStory {
  const place = prepared<{ project: string; zone: string; floor: string }>(
    read.sqlite,
    'select b.project, b.zone, z.floor from bays b join zones z on z.id = b.zone where b.id = ?',
  ).get(bay)
  if (place === undefined) throw new UnknownId('bay', bay)
  const ofBay = storyEntriesOf(read, { subject: bay })
  const ofZone = storyEntriesOf(read, { subject: place.zone })
  const ofFloor = storyEntriesOf(read, { subject: place.floor })
  const ofProject = storyEntriesOf(read, {
    subject: place.project,
    kinds: ['project-opened', 'weather-forecast-noted', 'repair-rates-set', 'cause-weights-set'],
  })
  const ofInstruments = instrumentsIn([...ofBay, ...ofZone]).flatMap((id) =>
    storyEntriesOf(read, { subject: id }),
  )
  const project = thatBegins(ofProject, place.project, 'project-opened')
  const entries = [
    ...ofBay,
    ...ofZone,
    ...ofFloor,
    ...ofInstruments,
    ...ofProject.filter((one) => one !== project),
  ]
  entries.sort((a, b) => a.happenedAt - b.happenedAt || a.versions[0]!.seq - b.versions[0]!.seq)
  return {
    storyVersion: 1,
    timeZone: project.body.timeZone,
    project: standingOf(project),
    floor: standingOf(thatBegins(ofFloor, place.floor, 'floor-added')),
    zone: standingOf(thatBegins(ofZone, place.zone, 'zone-added')),
    bay: standingOf(thatBegins(ofBay, bay, 'bay-planned')),
    entries,
    series: seriesOf(read, bay, ofBay, knownAt),
    neighbours: neighboursOf(read, bay, place.floor),
  } as unknown as BayStory
}

function thatBegins<K extends StoryEntry['kind']>(entries: StoryEntry[], id: string, kind: K) {
  const found = entries.find((one) => one.kind === kind && (one.id as string) === id)
  if (found === undefined) throw new UnknownId(kinds[kind].about, id)
  return found as StoryEntry & { kind: K }
}

function standingOf({ id, body }: StoryEntry) {
  return { id, body }
}

function instrumentsIn(entries: StoryEntry[]): string[] {
  const named = entries.flatMap((one) =>
    [...referencesOf(kinds[one.kind].fields, one.body as Record<string, unknown>)]
      .filter((reference) => reference.pointsAt === 'instrument')
      .map((reference) => reference.id),
  )
  return [...new Set(named)]
}

function neighboursOf(read: ReadHandle, bay: string, floor: string): BayStory['neighbours'] {
  return prepared<{ id: string; body: string }>(
    read.sqlite,
    `select b.id, l.body from zones z join bays b on b.zone = z.id join facts f on f.root = b.id
     join ledger l on l.seq = f.standing where z.floor = ? and z.project = b.project and b.id <> ? and b.withdrawn = 0
     order by b.name, b.id`,
  )
    .all(floor, bay)
    .map(({ id, body }) => ({ id, body: JSON.parse(body) })) as BayStory['neighbours']
}

interface SeriesRow {
  series: number
  entry: string
  quantity: string
  madeBy: string | null
  withdrawnAt: number | null
}

function seriesOf(read: ReadHandle, bay: string, entries: StoryEntry[], knownAt?: number): StorySeries[] {
  const from = layingBegan(entries) - beforeLayingMs
  const timesOf = plucked<number>(
    read.sqlite,
    'select at from readings where series = ? and at >= ? order by at',
  )
  const valuesOf = plucked<number>(
    read.sqlite,
    'select value from readings where series = ? and at >= ? order by at',
  )
  return prepared<SeriesRow>(
    read.sqlite,
    `select s.series, s.entry, s.quantity, i.madeBy,
       case when i.withdrawn = 1 then l.recordedAt end as withdrawnAt
     from series s join imports i on i.entry = s.entry join facts f on f.root = s.entry join ledger l on l.id = f.head
     where s.subject = ? and s.lastAt >= ? order by s.firstAt, s.series`,
  )
    .all(bay, from)
    .filter((row) => row.withdrawnAt === null || (knownAt !== undefined && row.withdrawnAt > knownAt))
    .map((row) => ({
      series: row.series,
      entry: row.entry as EntryId,
      quantity: row.quantity as SeriesQuantity,
      madeBy: row.madeBy,
      at: timesOf.all(row.series, from),
      value: valuesOf.all(row.series, from),
    }))
}

/** The first start of laying that the record knows; minus 2^53 when it knows none, so that nothing is left out. */
function layingBegan(entries: StoryEntry[]): number {
  const starts = entries.flatMap((one) => {
    if (one.kind === 'lift-laid' || one.kind === 'bay-finished') return [Date.parse(one.body.startedAt)]
    return one.kind === 'batch-mixed' ? [one.happenedAt] : []
  })
  return starts.length === 0 ? Number.MIN_SAFE_INTEGER + beforeLayingMs : Math.min(...starts)
}
