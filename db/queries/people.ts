import type { PersonId, ProjectId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import type { Role } from '#model/record/people.ts'
import { UnknownId } from '../errors.ts'
import { prepared, type ReadHandle } from '../handles.ts'

/** The people of a project who stand, and who opened it; nobody when there is no such project. */
export function companyOf(read: ReadHandle, project: string) {
  const people = prepared<{ id: PersonId; name: string; role: Role }>(
    read.sqlite,
    'select id, name, role from people where project = ? and withdrawn = 0 order by id',
  ).all(project)
  const opened = prepared<{ person: PersonId }>(
    read.sqlite,
    'select l.person from facts f join ledger l on l.seq = f.seq where f.root = ?',
  ).get(project)
  return { people, openedBy: opened?.person ?? null }
}

/**
 * A person who stands, with the project.
 * @throws UnknownId when there is no such person, or the entry that added them was withdrawn
 */
export function personOf(read: ReadHandle, person: string) {
  const found = prepared<{ id: PersonId; project: ProjectId; name: string; role: Role; timeZone: string }>(
    read.sqlite,
    `select e.id, e.project, e.name, e.role, p.timeZone from people e join projects p on p.id = e.project
     where e.id = ? and e.withdrawn = 0`,
  ).get(person)
  if (found === undefined) throw new UnknownId('person', person)
  return found
}

/** True while nobody stands in any project of this record, as in an empty one. */
export function isWithoutPeople(read: ReadHandle): boolean {
  return prepared(read.sqlite, 'select 1 from people where withdrawn = 0 limit 1').get() === undefined
}

/** What an entry is: the kind of its fact, its project, and who wrote this version; null when there is no such entry. */
export function writtenEntry(read: ReadHandle, entry: string) {
  const found = prepared<{ kind: KindName; project: string; person: string }>(
    read.sqlite,
    `select f.kind, f.project, l.person from ledger l join factVersions v on v.seq = l.seq
     join facts f on f.seq = v.fact where l.id = ?`,
  ).get(entry)
  return found ?? null
}

/** True when the ledger says that a PIN was ever set by or for somebody of this project. */
export function pinEverSet(read: ReadHandle, project: string): boolean {
  const found = prepared(
    read.sqlite,
    "select 1 from facts where project = ? and kind = 'pin-set' limit 1",
  ).get(project)
  return found !== undefined
}
