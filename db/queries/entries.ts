import { and, desc, eq, gte, inArray, lt, lte, or, type SQL } from 'drizzle-orm'
import type { EntryPage } from '#model/contract/shapes.ts'
import type { EntryVersion } from '#model/record/entry.ts'
import type { SubjectType } from '#model/record/entry-kind.ts'
import type { EntryId, ProjectId } from '#model/record/ids.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { UnknownId } from '../errors.ts'
import { prepared, type ReadHandle } from '../handles.ts'
import { facts } from '../schema.ts'
import { type FactRow, factColumns, storyEntriesFrom, versionsOf } from './story-entries.ts'

export interface FactFilter {
  project: ProjectId
  subject?: string
  kinds?: readonly KindName[]
  /** Happened at or after, at or before [ISO 8601]. */
  from?: string
  to?: string
  limit: number
  /** The `next` of the page before. */
  before?: number
}

/** One page of a project's facts, newest happening first, withdrawn ones among them with their mark. */
export function listFacts(read: ReadHandle, filter: FactFilter): EntryPage {
  return read.sqlite.transaction(() => {
    const seqs = read.orm
      .select({ seq: facts.seq })
      .from(facts)
      .where(and(...conditionsOf(read, filter)))
      .orderBy(desc(facts.happenedAt), desc(facts.seq))
      .limit(filter.limit + 1)
      .all()
      .map((row) => row.seq)
    const shown = seqs.slice(0, filter.limit)
    const rows = prepared<FactRow>(
      read.sqlite,
      `select ${factColumns} from json_each(?) j join facts f on f.seq = j.value join ledger l on l.seq = f.standing
       order by j.key`,
    ).all(JSON.stringify(shown))
    return { entries: storyEntriesFrom(read, rows), next: seqs.length > shown.length ? shown.at(-1)! : null }
  })()
}

function conditionsOf(read: ReadHandle, filter: FactFilter): (SQL | undefined)[] {
  const start =
    filter.before === undefined
      ? undefined
      : read.orm
          .select({ happenedAt: facts.happenedAt })
          .from(facts)
          .where(eq(facts.seq, filter.before))
          .get()
  if (filter.before !== undefined && start === undefined) throw new UnknownId('page', String(filter.before))
  return [
    eq(facts.project, filter.project),
    filter.subject === undefined ? undefined : eq(facts.subject, filter.subject),
    filter.kinds === undefined ? undefined : inArray(facts.kind, [...filter.kinds]),
    filter.from === undefined ? undefined : gte(facts.happenedAt, Date.parse(filter.from)),
    filter.to === undefined ? undefined : lte(facts.happenedAt, Date.parse(filter.to)),
    start === undefined
      ? undefined
      : or(
          lt(facts.happenedAt, start.happenedAt),
          and(eq(facts.happenedAt, start.happenedAt), lt(facts.seq, filter.before!)),
        ),
  ]
}

/**
 * Every version of the fact that an entry belongs to; the last one is what holds, or the withdrawal.
 * @throws UnknownId when there is no such entry
 */
export function entryVersions(read: ReadHandle, entry: EntryId): EntryVersion[] {
  const found = prepared<{ fact: number }>(
    read.sqlite,
    'select v.fact from ledger l join factVersions v on v.seq = l.seq where l.id = ?',
  ).get(entry)
  if (found === undefined) throw new UnknownId('entry', entry)
  return versionsOf(read, found.fact)
}

export interface Subject {
  id: string
  type: SubjectType
  project: ProjectId
  /** What people call it. */
  name: string
  withdrawn: boolean
}

/** What an id stands for: a project, floor, zone, bay, person or instrument; null when it is none of these. */
export function subjectOf(read: ReadHandle, id: string): Subject | null {
  const row = prepared<{ kind: KindName; project: ProjectId; body: string; withdrawn: number }>(
    read.sqlite,
    `select f.kind, f.project, f.withdrawn, l.body from facts f join ledger l on l.seq = f.standing
     where f.root = ? and f.subject = f.root`,
  ).get(id)
  if (row === undefined) return null
  const body = JSON.parse(row.body) as { name?: string; serial?: string }
  return {
    id,
    type: kinds[row.kind].about,
    project: row.project,
    name: body.name ?? body.serial ?? id,
    withdrawn: row.withdrawn === 1,
  }
}
