import type { CheckedEntry, LedgerEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { admit } from './admit.ts'
import { canonicalJson } from './canonical.ts'
import { CorrectionConflict, onDisk } from './errors.ts'
import { prepared, type Sqlite, type WriteHandle } from './handles.ts'
import { chainStart, entryHash } from './hash.ts'
import { entryFromRow, type LedgerRow, ledgerColumns } from './ledger-row.ts'
import { type RecordFile, writing } from './open.ts'
import { projectEntry } from './views/project-entry.ts'

export interface AppendOptions {
  /** When it is being entered [epoch ms]. */
  recordedAt: number
}

/**
 * Writes entries into the ledger and its views, all in one transaction or none. An entry that is there already with
 * the same facts counts as written and comes back as it stands, so that asking twice after a lost answer is safe.
 * When this returns, the entries are on the disk.
 * @throws EntryRefused when something entered cannot be right; UnknownId when something pointed at is not here;
 *   CorrectionConflict when the corrected entry is no longer what holds; RecordError when the disk refuses
 */
export function appendEntries(
  record: RecordFile,
  entries: readonly CheckedEntry[],
  { recordedAt }: AppendOptions,
): LedgerEntry[] {
  const { write, device } = writing(record)
  return onDisk(record.file, () =>
    write.sqlite
      .transaction(() => {
        const company = new Set(
          entries.filter((one) => one.kind === 'person-added').map((one) => String(one.id)),
        )
        return entries.map((entry) => appendOne(write, device.id, entry, { recordedAt, company }))
      })
      .immediate(),
  )
}

interface AppendOneOptions extends AppendOptions {
  /** People who are added by the same append. */
  company: ReadonlySet<string>
  /** The readings of a logger file come with it. */
  readings?: boolean
}

/** One entry inside the caller's transaction. */
export function appendOne(
  write: WriteHandle,
  device: string,
  entry: CheckedEntry,
  { recordedAt, company, readings = false }: AppendOneOptions,
): LedgerEntry {
  const written = writtenAlready(write.sqlite, entry)
  if (written !== null) return written
  const body = admit(write, entry, { recordedAt, company, readings })
  const row = seal(write.sqlite, device, { ...entry, body }, recordedAt)
  insertRow(write.sqlite, row)
  projectEntry(write.sqlite, row)
  return entryFromRow(row)
}

/** The entry of this id when it says the same; null when the id is new. */
export function writtenAlready(sqlite: Sqlite, entry: CheckedEntry): LedgerEntry | null {
  const row = prepared<LedgerRow>(sqlite, 'select * from ledger where id = ?').get(entry.id)
  if (row === undefined) return null
  const written = entryFromRow(row)
  if (contentOf(written) === contentOf({ ...entry, happenedAt: new Date(entry.happenedAt).toISOString() })) {
    return written
  }
  const title = kinds[row.kind].title.toLowerCase()
  throw new CorrectionConflict(
    `The id ${entry.id} is taken by "${title}" of ${written.happenedAt}, which says something else.`,
    row.id,
  )
}

type Content = Pick<
  CheckedEntry,
  'project' | 'subject' | 'kind' | 'happenedAt' | 'zone' | 'person' | 'source' | 'answers'
> & { body: unknown; corrects?: string | null; reason?: string | null }

function contentOf(entry: Content): string {
  const parsed = kinds[entry.kind].body.safeParse(entry.body)
  return canonicalJson({
    project: entry.project,
    subject: entry.subject,
    kind: entry.kind,
    happenedAt: entry.happenedAt,
    zone: entry.zone,
    person: entry.person,
    source: entry.source,
    body: parsed.success ? parsed.data : entry.body,
    answers: entry.answers,
    corrects: entry.corrects ?? null,
    reason: entry.reason ?? null,
  })
}

function seal(sqlite: Sqlite, device: string, entry: CheckedEntry, recordedAt: number): LedgerRow {
  const last = prepared<{ deviceSeq: number; hash: string }>(
    sqlite,
    'select deviceSeq, hash from ledger where device = ? order by deviceSeq desc limit 1',
  ).get(device)
  const end = prepared<{ seq: number | null }>(sqlite, 'select max(seq) as seq from ledger').get()
  const unsealed: Omit<LedgerEntry, 'seq' | 'hash'> = {
    id: entry.id,
    device,
    deviceSeq: (last?.deviceSeq ?? 0) + 1,
    project: entry.project,
    subject: entry.subject,
    kind: entry.kind,
    kindVersion: kinds[entry.kind].version,
    happenedAt: new Date(entry.happenedAt).toISOString(),
    zone: entry.zone,
    recordedAt: new Date(recordedAt).toISOString(),
    person: entry.person,
    source: entry.source,
    body: entry.body,
    answers: entry.answers,
    corrects: entry.corrects ?? null,
    reason: entry.reason ?? null,
    prevHash: last?.hash ?? chainStart,
  }
  return {
    ...unsealed,
    seq: (end?.seq ?? 0) + 1,
    happenedAt: Date.parse(unsealed.happenedAt),
    recordedAt: Date.parse(unsealed.recordedAt),
    body: canonicalJson(unsealed.body),
    answers: canonicalJson(unsealed.answers),
    hash: entryHash(unsealed),
  }
}

const insertSql = `insert into ledger (${ledgerColumns.join(', ')}) values (${ledgerColumns.map((name) => `@${name}`).join(', ')})`

export function insertRow(sqlite: Sqlite, row: LedgerRow): void {
  prepared(sqlite, insertSql).run(row)
}
