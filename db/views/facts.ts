import { lateAfterMs } from '#model/record/entry.ts'
import { prepared, type Sqlite } from '../handles.ts'
import type { LedgerRow } from '../ledger-row.ts'

/** A fact after an entry touched it: its row in the view, and the version of it that holds. */
export interface Fact {
  seq: number
  root: string
  withdrawn: boolean
  standing: LedgerRow
}

interface Version {
  seq: number
  id: string
  corrects: number | null
  leaf: number
  kind: string
}

/** A new fact: its first version holds. */
export function addFact(sqlite: Sqlite, row: LedgerRow): Fact {
  prepared(
    sqlite,
    `insert into facts (seq, root, kind, subject, project, head, standing, happenedAt, late, withdrawn, conflict, versions)
     values (?, ?, ?, ?, ?, ?, ?, ?, ?, 0, 0, 1)`,
  ).run(
    row.seq,
    row.id,
    row.kind,
    row.subject,
    row.project,
    row.id,
    row.seq,
    row.happenedAt,
    isLate(row, row),
  )
  prepared(sqlite, 'insert into factVersions (seq, fact, corrects, leaf) values (?, ?, null, 1)').run(
    row.seq,
    row.seq,
  )
  return { seq: row.seq, root: row.id, withdrawn: false, standing: row }
}

/**
 * A correction or a withdrawal of a fact. What holds afterwards is the newest version that nobody corrected and that
 * is not a withdrawal; two of those side by side are a conflict; none at all means that the fact is withdrawn.
 */
export function addVersion(sqlite: Sqlite, row: LedgerRow): Fact {
  const corrected = prepared<{ seq: number; fact: number }>(
    sqlite,
    'select v.seq, v.fact from factVersions v join ledger l on l.seq = v.seq where l.id = ?',
  ).get(row.corrects)
  if (corrected === undefined)
    throw new Error(`entry ${row.id} corrects ${row.corrects}, which is not in the ledger`)
  prepared(sqlite, 'update factVersions set leaf = 0 where seq = ?').run(corrected.seq)
  prepared(sqlite, 'insert into factVersions (seq, fact, corrects, leaf) values (?, ?, ?, 1)').run(
    row.seq,
    corrected.fact,
    corrected.seq,
  )
  const versions = prepared<Version>(
    sqlite,
    `select v.seq, v.corrects, v.leaf, l.id, l.kind from factVersions v join ledger l on l.seq = v.seq
     where v.fact = ? order by v.seq`,
  ).all(corrected.fact)
  const { head, standing, withdrawn, conflict } = whatHolds(versions)
  const rowOf = prepared<LedgerRow>(sqlite, 'select * from ledger where seq = ?')
  const first = rowOf.get(corrected.fact)!
  const holds = rowOf.get(standing.seq)!
  prepared(
    sqlite,
    `update facts set head = ?, standing = ?, happenedAt = ?, late = ?, withdrawn = ?, conflict = ?, versions = ?
     where seq = ?`,
  ).run(
    head.id,
    holds.seq,
    holds.happenedAt,
    isLate(first, holds),
    Number(withdrawn),
    Number(conflict),
    versions.length,
    first.seq,
  )
  return { seq: first.seq, root: first.id, withdrawn, standing: holds }
}

function whatHolds(versions: Version[]) {
  const leaves = versions.filter((version) => version.leaf === 1)
  const alive = leaves.filter((version) => version.kind !== 'entry-withdrawn')
  const head = alive.at(-1) ?? leaves.at(-1)!
  let standing = head
  while (standing.kind === 'entry-withdrawn' && standing.corrects !== null) {
    const below = standing.corrects
    standing = versions.find((version) => version.seq === below)!
  }
  return { head, standing, withdrawn: alive.length === 0, conflict: alive.length > 1 }
}

/**
 * Whether a fact was first recorded more than 48 h after it happened. A logger writes by itself while it happens: its
 * file is late only when it is read that long after its last reading.
 */
function isLate(first: LedgerRow, holds: LedgerRow): number {
  const happenedAt =
    holds.kind === 'logger-imported'
      ? Date.parse((JSON.parse(holds.body) as { lastAt: string }).lastAt)
      : holds.happenedAt
  return Number(first.recordedAt - happenedAt > lateAfterMs)
}
