import { referencesOf } from '#model/record/check-body.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { SubjectType } from '#model/record/entry-kind.ts'
import { kinds } from '#model/record/kinds.ts'
import { EntryRefused, UnknownId } from './errors.ts'
import { prepared, type Sqlite } from './handles.ts'

/** The project stands; an entry that opens one is its own project. */
export function requireProject(sqlite: Sqlite, entry: CheckedEntry): void {
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

/** The person who enters it is known in the project; the first one comes with the project or right after it. */
export function requirePerson(sqlite: Sqlite, entry: CheckedEntry, company: ReadonlySet<string>): void {
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

/** The subject stands and is what this kind of entry is about. */
export function requireSubject(sqlite: Sqlite, entry: CheckedEntry): void {
  const kind = kinds[entry.kind]
  if (kind.begins === true) {
    if (entry.subject === entry.id) return
    const message = `Subject is ${entry.subject}; an entry that adds a ${kind.about} must have itself as subject (${entry.id}).`
    throw new EntryRefused(entry.id, [{ field: 'subject', value: entry.subject, message }])
  }
  const mayBeAbout = kind.mayBeAbout ?? [kind.about]
  if (!mayBeAbout.some((type) => stands(sqlite, type, entry.subject, entry.project)))
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

/** Everything the body points at stands in the same project. */
export function requireReferences(sqlite: Sqlite, entry: CheckedEntry, body: Record<string, unknown>): void {
  for (const { id, pointsAt } of referencesOf(kinds[entry.kind].fields, body)) {
    if (!stands(sqlite, pointsAt, id, entry.project)) throw new UnknownId(pointsAt, id)
  }
}
