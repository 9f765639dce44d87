import type { KindName } from '#model/record/kinds.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'

/** What an entry of the ledger was about, for whoever keeps something computed from it. */
export interface Touch {
  seq: number
  project: string
  subject: string
  /** Of the fact it belongs to: a withdrawal has the kind of what it withdraws. */
  kind: KindName
  /** True when the subject is a bay. */
  ofBay: boolean
}

/** The position of the last entry; 0 in an empty ledger. */
export function lastSeq(read: ReadHandle): number {
  return plucked<number>(read.sqlite, 'select coalesce(max(seq), 0) from ledger').get() ?? 0
}

/** The hash of the entry at a position; null where there is none. */
export function hashAt(read: ReadHandle, seq: number): string | null {
  return plucked<string>(read.sqlite, 'select hash from ledger where seq = ?').get(seq) ?? null
}

/** What has been touched by entries after a position, oldest first. */
export function touchedSince(read: ReadHandle, seq: number): Touch[] {
  return prepared<Omit<Touch, 'ofBay'> & { ofBay: number }>(
    read.sqlite,
    `select l.seq, l.project, l.subject, f.kind, exists (select 1 from bays b where b.id = l.subject) as ofBay
     from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
     where l.seq > ? order by l.seq`,
  )
    .all(seq)
    .map((row) => ({ ...row, ofBay: row.ofBay === 1 }))
}
