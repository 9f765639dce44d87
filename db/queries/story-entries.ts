import type { EntryVersion, StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { type Handle, prepared } from '../handles.ts'
import { type LedgerRow, versionFromRow } from '../ledger-row.ts'

/** A fact with the row of the version that holds. */
export interface FactRow extends LedgerRow {
  root: string
  factSeq: number
  factKind: KindName
  factSubject: string
  late: number
  withdrawn: number
  conflict: number
  versions: number
}

export const factColumns = `f.root, f.seq as factSeq, f.kind as factKind, f.subject as factSubject, f.late, f.withdrawn,
  f.conflict, f.versions, l.*`

/** The facts about one subject, of all kinds or of some; by happenedAt. */
export function storyEntriesOf(
  handle: Handle,
  { subject, kinds }: { subject: string; kinds?: readonly KindName[] },
): StoryEntry[] {
  const some = kinds === undefined ? '' : ` and f.kind in (${kinds.map(() => '?').join(', ')})`
  const sql = `select ${factColumns} from facts f join ledger l on l.seq = f.standing
    where f.subject = ?${some} order by f.happenedAt, f.seq`
  return storyEntriesFrom(handle, prepared<FactRow>(handle.sqlite, sql).all(subject, ...(kinds ?? [])))
}

/** The facts with these roots; by happenedAt. */
export function storyEntriesByRoot(handle: Handle, roots: readonly string[]): StoryEntry[] {
  const sql = `select ${factColumns} from json_each(?) j join facts f on f.root = j.value
    join ledger l on l.seq = f.standing order by f.happenedAt, f.seq`
  return storyEntriesFrom(handle, prepared<FactRow>(handle.sqlite, sql).all(JSON.stringify(roots)))
}

/** Facts from their rows, each with all its versions. */
export function storyEntriesFrom(handle: Handle, rows: readonly FactRow[]): StoryEntry[] {
  return rows.map((row) => {
    const standing = versionFromRow(row)
    const versions = row.versions === 1 ? [standing] : versionsOf(handle, row.factSeq)
    return {
      id: row.root,
      kind: row.factKind,
      subject: row.factSubject,
      happenedAt: standing.happenedAt,
      recordedAt: standing.recordedAt,
      person: standing.person,
      source: standing.source,
      late: row.late === 1,
      withdrawn: row.withdrawn === 1,
      conflict: row.conflict === 1,
      body: standing.body,
      versions,
    } as StoryEntry
  })
}

/**
 * All versions of a fact. They come in the order of recording, except that a branch which does not hold comes before
 * the one that does: so the last version is always what holds, or the withdrawal.
 */
export function versionsOf(handle: Handle, fact: number): EntryVersion[] {
  const rows = prepared<LedgerRow & { below: number | null; isHead: number }>(
    handle.sqlite,
    `select l.*, v.corrects as below, l.id = f.head as isHead from factVersions v join ledger l on l.seq = v.seq
     join facts f on f.seq = v.fact where v.fact = ? order by v.seq`,
  ).all(fact)
  const holding = new Set<number>()
  const head = rows.find((row) => row.isHead === 1)
  for (let row = head; row !== undefined; ) {
    holding.add(row.seq)
    const below: number | null = row.below
    row = below === null ? undefined : rows.find((one) => one.seq === below)
  }
  const inOrder = [
    ...rows.filter((row) => !holding.has(row.seq)),
    ...rows.filter((row) => holding.has(row.seq)),
  ]
  return inOrder.map(versionFromRow)
}
