import {
  checkBody,
  type FieldProblem,
  problemAt,
  referencesOf,
  unansweredRanges,
} from '#model/record/check-body.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { SubjectType } from '#model/record/entry-kind.ts'
import { kinds } from '#model/record/kinds.ts'
import { orderLooksAt, orderProblems } from '#model/record/order.ts'
import { canonicalJson } from './canonical.ts'
import { CorrectionConflict, EntryRefused, UnknownId } from './errors.ts'
import { prepared, type Sqlite, type WriteHandle } from './handles.ts'
import { storyEntriesOf } from './queries/story-entries.ts'

const clockSlackMs = 10 * 60_000

interface Circumstances {
  /** [epoch ms] */
  recordedAt: number
  company: ReadonlySet<string>
  readings: boolean
}

/**
 * Checks an entry against everything the record knows, and returns its body as it will be kept.
 * @throws EntryRefused, UnknownId, CorrectionConflict
 */
export function admit(
  write: WriteHandle,
  entry: CheckedEntry,
  circumstances: Circumstances,
): Record<string, unknown> {
  const { sqlite } = write
  const { body, problems } = checkBody(entry.kind, entry.body)
  const found = [...timeProblems(entry, circumstances.recordedAt), ...problems]
  if (body === null || found.length > 0) throw new EntryRefused(entry.id, found)
  const unanswered = unansweredRanges(entry.kind, body, entry.answers)
  if (unanswered.length > 0) throw new EntryRefused(entry.id, unanswered)

  requireProject(sqlite, entry)
  requirePerson(sqlite, entry, circumstances.company)
  if (entry.corrects === undefined) requireSubject(sqlite, entry)
  else requireCorrectable(sqlite, entry, entry.corrects)
  requireReferences(sqlite, entry, body)
  if (entry.kind === 'logger-imported' && !circumstances.readings) requireSameReadings(sqlite, entry, body)

  const looksAt = orderLooksAt(entry.kind)
  const standing =
    looksAt.length === 0 ? [] : storyEntriesOf(write, { subject: entry.subject, kinds: looksAt })
  const outOfOrder = orderProblems({ ...entry, body }, standing)
  if (outOfOrder.length > 0) throw new EntryRefused(entry.id, outOfOrder)
  return body
}

function timeProblems(entry: CheckedEntry, recordedAt: number): FieldProblem[] {
  const problem = (field: string, value: string, message: string) => [{ field, value, message }]
  const happenedAt = Date.parse(entry.happenedAt)
  const future = happenedAt - recordedAt > clockSlackMs
  const now = new Date(recordedAt).toISOString()
  return [
    ...(future
      ? problem(
          'happenedAt',
          entry.happenedAt,
          `When it happened is ${entry.happenedAt}; it must not be later than now (${now}). Check day and clock.`,
        )
      : []),
    ...(isTimeZone(entry.zone)
      ? []
      : problem(
          'zone',
          entry.zone,
          `Time zone is "${entry.zone}"; it must be a known zone such as Europe/London.`,
        )),
    ...(entry.corrects !== undefined && entry.reason === undefined
      ? problem('reason', 'nothing', 'Reason is missing; a correction or a withdrawal must say why.')
      : []),
    ...(entry.corrects === undefined && entry.kind === 'entry-withdrawn'
      ? problem('corrects', 'nothing', 'Entry to withdraw is missing; name the entry that was made in error.')
      : []),
  ]
}

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone })
    return true
  } catch (cause) {
    if (cause instanceof RangeError) return false
    throw cause
  }
}

function requireProject(sqlite: Sqlite, entry: CheckedEntry): void {
  const known = prepared<{ withdrawn: number }>(sqlite, 'select withdrawn from projects where id = ?').get(
    entry.project,
  )
  const opens = entry.kind === 'project-opened' && entry.corrects === undefined
  if (opens) {
    if (entry.project === (entry.id as string)) return
    throw new EntryRefused(entry.id, [
      {
        field: 'project',
        value: entry.project,
        message: `Project is ${entry.project}; it must be the id of the entry that opens it.`,
      },
    ])
  }
  if (known === undefined) throw new UnknownId('project', entry.project)
  if (known.withdrawn === 1 && entry.corrects === undefined)
    throw new UnknownId('standing project', entry.project)
}

function requirePerson(sqlite: Sqlite, entry: CheckedEntry, company: ReadonlySet<string>): void {
  const { project, person } = entry
  const known = prepared<{ withdrawn: number }>(
    sqlite,
    'select withdrawn from people where id = ? and project = ?',
  ).get(person, project)
  if (known?.withdrawn === 0) return
  if (entry.kind === 'project-opened' && entry.corrects === undefined) {
    // The first person cannot be known before the project; they come with it or right after it.
    if (company.size === 0 || company.has(person)) return
  }
  const first = entry.kind === 'person-added' && (entry.id as string) === person
  if (first && opener(sqlite, project) === person) return
  throw new UnknownId('person', person)
}

function opener(sqlite: Sqlite, project: string): string | undefined {
  return prepared<{ person: string }>(
    sqlite,
    `select l.person from facts f join ledger l on l.seq = f.seq where f.root = ?
     and not exists (select 1 from people where project = f.project)`,
  ).get(project)?.person
}

function requireSubject(sqlite: Sqlite, entry: CheckedEntry): void {
  const kind = kinds[entry.kind]
  if (kind.begins === true) {
    if (entry.subject === entry.id) return
    const message = `Subject is ${entry.subject}; an entry that adds a ${kind.about} must have itself as subject (${entry.id}).`
    throw new EntryRefused(entry.id, [{ field: 'subject', value: entry.subject, message }])
  }
  if (!stands(sqlite, kind.about, entry.subject, entry.project))
    throw new UnknownId(kind.about, entry.subject)
}

const tableOf: Record<Exclude<SubjectType, 'defect'>, string> = {
  project: 'projects',
  floor: 'floors',
  zone: 'zones',
  bay: 'bays',
  person: 'people',
  instrument: 'instruments',
}

function stands(sqlite: Sqlite, type: string, id: string, project: string): boolean {
  if (type === 'project') return id === project
  if (type === 'entry' || type === 'defect') {
    return (
      prepared(sqlite, 'select 1 from facts where root = ? and project = ? and withdrawn = 0').get(
        id,
        project,
      ) !== undefined
    )
  }
  const table = tableOf[type as keyof typeof tableOf]
  const sql = `select 1 from ${table} where id = ? and project = ? and withdrawn = 0`
  return prepared(sqlite, sql).get(id, project) !== undefined
}

function requireReferences(sqlite: Sqlite, entry: CheckedEntry, body: Record<string, unknown>): void {
  for (const { id, pointsAt } of referencesOf(kinds[entry.kind].fields, body)) {
    if (!stands(sqlite, pointsAt, id, entry.project)) throw new UnknownId(pointsAt, id)
  }
}

interface Corrected {
  root: string
  head: string
  kind: string
  subject: string
  project: string
  leaf: number
  conflict: number
  correctedKind: string
}

function requireCorrectable(sqlite: Sqlite, entry: CheckedEntry, corrects: string): void {
  const found = prepared<Corrected>(
    sqlite,
    `select f.root, f.head, f.kind, f.subject, f.project, f.conflict, v.leaf, l.kind as correctedKind
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
  if (withdraws) requireNothingStandsOn(sqlite, entry, found)
}

/** What a logger file holds is fixed by its bytes; a correction may change only what people said about it. */
function requireSameReadings(sqlite: Sqlite, entry: CheckedEntry, body: Record<string, unknown>): void {
  const before = prepared<{ body: string }>(
    sqlite,
    `select holds.body from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
     join ledger holds on holds.seq = f.standing where l.id = ?`,
  ).get(entry.corrects ?? '')
  const fixed = ['sha256', 'bytes', 'rows', 'refused', 'firstAt', 'lastAt', 'columns']
  const was = before === undefined ? null : (JSON.parse(before.body) as Record<string, unknown>)
  const field = fixed.find((name) => was === null || canonicalJson(was[name]) !== canonicalJson(body[name]))
  if (field === undefined) return
  const message =
    was === null
      ? 'comes with a logger file: read the file, so that its readings are kept too'
      : 'must stay as it was read from the file. Withdraw the entry and read the file again'
  throw new EntryRefused(entry.id, [problemAt(entry.kind, body, field, message)])
}

/** A bay on which entries stand cannot be withdrawn under them. */
function requireNothingStandsOn(sqlite: Sqlite, entry: CheckedEntry, found: Corrected): void {
  const others = prepared<{ count: number }>(
    sqlite,
    `select count(*) as count from facts f join ledger l on l.seq = f.standing
     where f.withdrawn = 0 and f.root <> @root and f.project = @project
       and (f.subject = @root or @kind = 'project-opened' or instr(l.body, @quoted) > 0
         or (@kind = 'person-added' and l.person = @root))`,
  ).get({ root: found.root, project: found.project, kind: found.kind, quoted: `"${found.root}"` })
  const count = others?.count ?? 0
  if (count === 0) return
  const message = `Entry is ${found.root}; ${count} other ${count === 1 ? 'entry stands' : 'entries stand'} on it. Withdraw ${count === 1 ? 'that one' : 'those'} first.`
  throw new EntryRefused(entry.id, [{ field: 'corrects', value: found.root, message }])
}
