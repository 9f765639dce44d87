import { problemAt } from '#model/record/check-body.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import { canonicalJson } from './canonical.ts'
import { CorrectionConflict, EntryRefused, UnknownId } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'

interface Corrected {
  root: string
  head: string
  kind: string
  subject: string
  project: string
  leaf: number
  correctedKind: string
}

/** The corrected entry is what holds now, and the correction keeps its kind and its subject. */
export function requireCorrectable(sqlite: Sqlite, entry: CheckedEntry, corrects: string): void {
  const found = prepared<Corrected>(
    sqlite,
    `select f.root, f.head, f.kind, f.subject, f.project, v.leaf, l.kind as correctedKind
     from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact where l.id = ?`,
  ).get(corrects)
  if (found === undefined || found.project !== entry.project) throw new UnknownId('entry', corrects)
  if (found.leaf !== 1) {
    const words = 'This entry was corrected meanwhile. Look at what stands now and correct that.'
    throw new CorrectionConflict(words, found.head)
  }
  const refuse = (field: string, value: string, message: string) => {
    throw new EntryRefused(entry.id, [{ field, value, message }])
  }
  const withdraws = entry.kind === 'entry-withdrawn'
  if (withdraws && found.correctedKind === 'entry-withdrawn') {
    throw new CorrectionConflict('This entry is withdrawn already.', found.head)
  }
  if (!withdraws && entry.kind !== found.kind) {
    refuse(
      'kind',
      entry.kind,
      `Kind is ${entry.kind}; a correction must keep the kind ${found.kind}. Withdraw the entry and record the right one.`,
    )
  }
  const mayBe = withdraws ? [found.subject, found.project] : [found.subject]
  if (!mayBe.includes(entry.subject)) {
    refuse(
      'subject',
      entry.subject,
      `Subject is ${entry.subject}; a correction must stay with ${found.subject}. Withdraw the entry and record it where it belongs.`,
    )
  }
  if (withdraws && !holdsWithout(sqlite, corrects)) requireNothingStandsOn(sqlite, entry, found)
}

/** Whether the fact still holds without this version: in a conflict another one stands beside it. */
function holdsWithout(sqlite: Sqlite, version: string): boolean {
  const others = prepared(
    sqlite,
    `select 1 from ledger l join factVersions v on v.seq = l.seq
       join factVersions other on other.fact = v.fact and other.seq <> v.seq and other.leaf = 1
       join ledger o on o.seq = other.seq
     where l.id = ? and o.kind <> 'entry-withdrawn' limit 1`,
  ).get(version)
  return others !== undefined
}

/** What a logger file holds is fixed by its bytes; a correction may change only what people said about it. */
export function requireSameReadings(
  sqlite: Sqlite,
  entry: CheckedEntry,
  body: Record<string, unknown>,
): void {
  const before = prepared<{ body: string }>(
    sqlite,
    `select holds.body from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
     join ledger holds on holds.seq = f.standing where l.id = ?`,
  ).get(entry.corrects ?? '')
  const fixed = ['sha256', 'bytes', 'rows', 'refused', 'firstAt', 'lastAt', 'columns']
  const was = before === undefined ? null : (JSON.parse(before.body) as Record<string, unknown>)
  const field = fixed.find((name) => was === null || canonicalJson(was[name]) !== canonicalJson(body[name]))
  if (field === undefined) {
    requireNotReadAgain(sqlite, entry, String(body.sha256))
    return
  }
  const message =
    was === null
      ? 'comes with a logger file: read the file, so that its readings are kept too'
      : 'must stay as it was read from the file. Withdraw the entry and read the file again'
  throw new EntryRefused(entry.id, [problemAt(entry.kind, body, field, message)])
}

/** A file that was withdrawn and read again since cannot be brought back beside its second reading. */
function requireNotReadAgain(sqlite: Sqlite, entry: CheckedEntry, sha256: string): void {
  const other = prepared<{ entry: string }>(
    sqlite,
    `select i.entry from imports i where i.sha256 = ? and i.project = ? and i.withdrawn = 0
     and i.entry <> (select f.root from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
                     where l.id = ?)`,
  ).get(sha256, entry.project, entry.corrects)
  if (other === undefined) return
  throw new CorrectionConflict(`This file was read again meanwhile, by entry ${other.entry}.`, other.entry)
}

/**
 * A bay on which entries stand cannot be withdrawn under them. A project can with its people, because they stand on each
 * other: the project was opened by a person, who is a person of the project.
 */
function requireNothingStandsOn(sqlite: Sqlite, entry: CheckedEntry, found: Corrected): void {
  const standing = prepared<{ count: number }>(
    sqlite,
    `select count(*) as count from facts f join ledger l on l.seq = f.standing
     where f.withdrawn = 0 and f.root <> @root and f.project = @project
       and (f.subject = @root or (@kind = 'project-opened' and f.kind <> 'person-added') or instr(l.body, @quoted) > 0
         or (@kind = 'person-added' and l.person = @root))`,
  ).get({ root: found.root, project: found.project, kind: found.kind, quoted: `"${found.root}"` })
  const count = standing?.count ?? 0
  if (count === 0) return
  const others = count === 1 ? '1 other entry stands' : `${count} other entries stand`
  const message =
    found.kind === 'person-added'
      ? `${others} under this name or on it, and they keep it. So that this person writes no more, change the role to “Viewer”.`
      : `${others} on it. Withdraw ${count === 1 ? 'that one' : 'those'} first.`
  throw new EntryRefused(entry.id, [{ field: 'corrects', value: found.root, message }])
}
