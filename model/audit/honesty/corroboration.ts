import type { StoryEntry } from '#model/record/entry.ts'
import type { HoldPoint } from '#model/record/people.ts'
import type { PhotoTag } from '#model/record/photos.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { dayMs } from '#model/watch/facts/time.ts'

/** What, besides the person who wrote it, says that a fact is so. */
export const witnesses = {
  logger: 'Logger',
  photo: 'Photo',
  ticket: 'Delivery ticket',
  'second person': 'Second person',
} as const
export type Witness = keyof typeof witnesses

/** A fact that decides an argument, and how well it is borne out. */
export interface Corroboration {
  fact: string
  entry: string
  /** 0 rests on one person's word; 3 and more is as good as it gets. */
  mark: 0 | 1 | 2 | 3
  by: { witness: Witness; entry: string }[]
}

/**
 * Returns the decisive facts of a bay that are written down, each with what bears it out. A chain of hashes shows that
 * nothing was altered; only a witness shows that it was true when it was written.
 * @provenance our judgement
 */
export function corroborationOf(facts: BayFacts): Corroboration[] {
  const { story, life, cover } = facts
  const last = <
    K extends 'edge-strip-fitted' | 'pipes-pressure-tested' | 'thickness-measured' | 'soundness-tested',
  >(
    kind: K,
  ) => entriesOf(story, kind).at(-1)
  const moisture = entriesOf(story, 'moisture-read').findLast(
    ({ body }) => body.method !== 'electrical survey',
  )
  const firstHeat = entriesOf(story, 'heating-noted').find(
    ({ body, happenedAt }) =>
      body.state === 'running' && life.startedAt !== null && happenedAt >= life.startedAt,
  )
  const lines: [string, StoryEntry | undefined | null, Parts][] = [
    ['Edge strip', last('edge-strip-fitted'), { tag: 'edge strip', points: ['edge strip'] }],
    ['Pipes tight', last('pipes-pressure-tested'), { tag: 'pipes', points: ['pipe pressure'] }],
    ['When it was laid', life.finish, { tag: 'lift', logger: ['screedC'], ticket: true, together: true }],
    ['Thickness', last('thickness-measured'), { points: [] }],
    ['Under the sheet', cover[0]?.on, { tag: 'sheets', points: ['curing day 4', 'curing day 7'] }],
    ['First heating', firstHeat, { logger: ['flowC'], points: ['heating run'] }],
    ['Soundness', last('soundness-tested'), { tag: 'test', points: ['soundness'] }],
    ['Moisture', moisture, { tag: 'test', logger: ['airC', 'rhPercent'], points: ['moisture test'] }],
  ]
  return lines.flatMap(([fact, entry, parts]) =>
    entry === undefined || entry === null ? [] : [borneOut(story, fact, entry, parts)],
  )
}

interface Parts {
  /** A photo with this tag, taken within days, counts besides those of the entry itself. */
  tag?: PhotoTag
  /** A logger of one of these quantities that was running at the time. */
  logger?: readonly string[]
  ticket?: boolean
  /** Somebody else let one of these hold points go. */
  points?: readonly HoldPoint[]
  /** Somebody else wrote about the bay on the same day. */
  together?: boolean
}

/** A photo of the right kind this near to a fact shows it, though nobody tied it to the entry. */
const photoNearMs = 2 * dayMs
const sameDayMs = dayMs / 2

function borneOut(story: BayStory, fact: string, entry: StoryEntry, parts: Parts): Corroboration {
  const { happenedAt, person, id } = entry
  const near = (at: number, withinMs: number) => Math.abs(at - happenedAt) <= withinMs
  const photo = entriesOf(story, 'photo-added').find(
    ({ body, happenedAt: at }) =>
      String(body.of) === String(id) ||
      (parts.tag !== undefined && body.tag === parts.tag && near(at, photoNearMs)),
  )
  const logger = story.series.find(
    ({ quantity, at, madeBy }) =>
      madeBy === null &&
      parts.logger?.includes(quantity) === true &&
      at.some((instant) => near(instant, dayMs / 8)),
  )
  const ticket =
    parts.ticket === true
      ? entriesOf(story, 'material-delivered').find(({ happenedAt: at }) => near(at, dayMs))
      : undefined
  const other =
    entriesOf(story, 'hold-point-released').find(
      (one) =>
        one.person !== person &&
        one.body.decision !== 'held' &&
        parts.points?.includes(one.body.point) === true,
    ) ??
    story.entries.find(
      (one) =>
        one.subject === story.bay.id &&
        !one.withdrawn &&
        one.person !== person &&
        (parts.together === true || one.kind === entry.kind) &&
        near(one.happenedAt, sameDayMs),
    )
  const by = [
    ...(logger === undefined ? [] : [{ witness: 'logger' as const, entry: logger.entry as string }]),
    ...(photo === undefined ? [] : [{ witness: 'photo' as const, entry: photo.id as string }]),
    ...(ticket === undefined ? [] : [{ witness: 'ticket' as const, entry: ticket.id as string }]),
    ...(other === undefined ? [] : [{ witness: 'second person' as const, entry: other.id as string }]),
  ]
  return { fact, entry: id, mark: Math.min(3, by.length) as Corroboration['mark'], by }
}
