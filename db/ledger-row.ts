import type { EntryVersion, LedgerEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'

/** A row of the ledger as SQLite holds it: times in epoch milliseconds, body and answers as canonical JSON. */
export interface LedgerRow {
  seq: number
  id: string
  device: string
  deviceSeq: number
  project: string
  subject: string
  kind: KindName
  kindVersion: number
  happenedAt: number
  zone: string
  recordedAt: number
  person: string
  source: string
  body: string
  answers: string
  corrects: string | null
  reason: string | null
  prevHash: string
  hash: string
}

export const ledgerColumns = [
  'seq',
  'id',
  'device',
  'deviceSeq',
  'project',
  'subject',
  'kind',
  'kindVersion',
  'happenedAt',
  'zone',
  'recordedAt',
  'person',
  'source',
  'body',
  'answers',
  'corrects',
  'reason',
  'prevHash',
  'hash',
] as const satisfies (keyof LedgerRow)[]

/** The entry as the rest of the program sees it. */
export function entryFromRow(row: LedgerRow): LedgerEntry {
  return {
    ...row,
    happenedAt: new Date(row.happenedAt).toISOString(),
    recordedAt: new Date(row.recordedAt).toISOString(),
    body: JSON.parse(row.body) as Record<string, unknown>,
    answers: JSON.parse(row.answers) as LedgerEntry['answers'],
  } as LedgerEntry
}

/** One version of a fact, from its row. */
export function versionFromRow(row: LedgerRow): EntryVersion {
  return {
    id: row.id,
    seq: row.seq,
    kind: row.kind,
    happenedAt: row.happenedAt,
    recordedAt: row.recordedAt,
    person: row.person,
    source: row.source,
    reason: row.reason,
    body: JSON.parse(row.body),
    answers: JSON.parse(row.answers),
  } as EntryVersion
}
