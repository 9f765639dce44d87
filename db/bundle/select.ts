import { prepared, type Sqlite } from '../handles.ts'
import type { LedgerRow } from '../ledger-row.ts'

/** What a bundle is asked to hold. */
export type ScopeAsked =
  | { kind: 'record' | 'project'; project: string }
  | { kind: 'bays'; project: string; bays: readonly string[] }

/** Which entries of the ledger are given; of the others up to `lastSeq` only the hash is. */
export interface Selection {
  lastSeq: number
  given: (seq: number) => boolean
}

interface FactOf {
  seq: number
  fact: number
  subject: string
  project: string
  kind: string
}

const idPattern = /[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}/g

/**
 * The entries of a scope. A fact comes with all its versions, or not at all. Of some bays: everything of the project but
 * what is about another bay, its plan apart, and also that when an entry that is given points at it.
 * @param asOf only what was recorded up to then [epoch ms]; null: everything
 */
export function select(sqlite: Sqlite, scope: ScopeAsked, asOf: number | null): Selection {
  const lastSeq = lastSeqAt(sqlite, asOf)
  if (scope.kind === 'record') return { lastSeq, given: () => true }
  const rows = prepared<FactOf>(
    sqlite,
    `select v.seq, v.fact, f.subject, f.project, f.kind from factVersions v join facts f on f.seq = v.fact
     where v.seq <= ? and f.project = ?`,
  ).all(lastSeq, scope.project)
  const facts = new Set<number>()
  const away = scope.kind === 'bays' ? ofOtherBays(sqlite, scope.project, scope.bays) : new Set<string>()
  // The plan of every bay goes along: how many places a bay is tested at depends on the bays beside it.
  for (const { fact, subject, kind } of rows)
    if (!away.has(subject) || kind === 'bay-planned') facts.add(fact)
  const versionsOf = Map.groupBy(rows, ({ fact }) => fact)
  if (scope.kind === 'bays') addPointedAt(sqlite, versionsOf, facts)
  const seqs = new Set([...facts].flatMap((fact) => versionsOf.get(fact)?.map(({ seq }) => seq) ?? []))
  return { lastSeq, given: (seq) => seqs.has(seq) }
}

/** The last entry before the first one that was recorded later: what stood in this file then. */
function lastSeqAt(sqlite: Sqlite, asOf: number | null): number {
  const sql =
    asOf === null
      ? 'select max(seq) as seq from ledger'
      : 'select coalesce((select min(seq) - 1 from ledger where recordedAt > ?), max(seq)) as seq from ledger'
  const row = prepared<{ seq: number | null }>(sqlite, sql).get(...(asOf === null ? [] : [asOf]))
  return row?.seq ?? 0
}

/** The other bays, and what was found on them and has entries about itself, such as a defect. */
function ofOtherBays(sqlite: Sqlite, project: string, bays: readonly string[]): Set<string> {
  const known = prepared<{ root: string; subject: string; kind: string }>(
    sqlite,
    `select root, subject, kind from facts where project = ?`,
  ).all(project)
  const away = new Set(
    known.filter(({ kind, root }) => kind === 'bay-planned' && !bays.includes(root)).map(({ root }) => root),
  )
  for (const { root, subject } of known) if (away.has(subject)) away.add(root)
  return away
}

/** Whatever a given fact points at is given too, and so on. */
function addPointedAt(sqlite: Sqlite, versionsOf: Map<number, FactOf[]>, facts: Set<number>): void {
  const rowOf = prepared<LedgerRow>(sqlite, 'select * from ledger where seq = ?')
  const factOfId = prepared<{ fact: number }>(
    sqlite,
    'select v.fact from ledger l join factVersions v on v.seq = l.seq where l.id = ?',
  )
  const waiting = [...facts]
  for (let fact = waiting.pop(); fact !== undefined; fact = waiting.pop()) {
    for (const { seq } of versionsOf.get(fact) ?? []) {
      const { body, person, subject } = rowOf.get(seq)!
      for (const id of [person, subject, ...(body.match(idPattern) ?? [])]) {
        const pointedAt = factOfId.get(id)?.fact
        if (pointedAt === undefined || facts.has(pointedAt) || !versionsOf.has(pointedAt)) continue
        facts.add(pointedAt)
        waiting.push(pointedAt)
      }
    }
  }
}
