import type { StoryEntryOf } from '#model/record/entry.ts'
import type { BayStory } from '#model/record/story.ts'
import { entriesOf } from '#model/record/story.ts'
import { daysBetween, instantBy } from './time.ts'

/** The stations of a bay's life, as far as they have happened. */
export interface Life {
  plannedFor: number | null
  /** When the first material went down, by whatever tells it. */
  startedAt: number | null
  /** The finish of the bay; where nobody recorded it, the last lift or batch that is known. */
  t0: number | null
  t0From: 'finish' | 'last lift' | 'last batch' | null
  finish: StoryEntryOf<'bay-finished'> | null
  coveredAt: number | null
  covering: StoryEntryOf<'covering-laid'> | null
  /** Days since the finish; null before it. */
  ageDays: number | null
  /** Gains strength by cement, is kept damp, and is judged by maturity. */
  cementBound: boolean
}

/** Returns the stations of the bay's life in a story that was cut at `asOf`. */
export function lifeOf(story: BayStory, asOf: number): Life {
  const finish = entriesOf(story, 'bay-finished').at(-1) ?? null
  const covering = entriesOf(story, 'covering-laid')[0] ?? null
  const lifts = entriesOf(story, 'lift-laid')
  const batches = entriesOf(story, 'batch-mixed')
  const lastLift = latest(lifts.map(({ body, happenedAt }) => instantBy(body.finishedAt, asOf) ?? happenedAt))
  const lastBatch = latest(batches.map(({ body, happenedAt }) => instantBy(body.laidAt, asOf) ?? happenedAt))
  const starts = [
    instantBy(finish?.body.startedAt, asOf),
    ...lifts.map(({ body }) => instantBy(body.startedAt, asOf)),
    ...batches.map(({ happenedAt }) => happenedAt),
    finish?.happenedAt ?? null,
  ].filter((at) => at !== null)
  const [t0, t0From] =
    finish !== null
      ? ([finish.happenedAt, 'finish'] as const)
      : lastLift !== null
        ? ([lastLift, 'last lift'] as const)
        : lastBatch !== null
          ? ([lastBatch, 'last batch'] as const)
          : ([null, null] as const)
  return {
    plannedFor: story.bay.body.plannedFor === undefined ? null : Date.parse(story.bay.body.plannedFor),
    startedAt: starts.length === 0 ? null : Math.min(...starts),
    t0,
    t0From,
    finish,
    coveredAt: covering?.happenedAt ?? null,
    covering,
    ageDays: t0 === null ? null : daysBetween(t0, asOf),
    cementBound: story.bay.body.screed !== 'calcium sulfate',
  }
}

function latest(instants: readonly number[]): number | null {
  return instants.length === 0 ? null : Math.max(...instants)
}
