import { EntryRefused } from '#db/errors.ts'
import { companyOf } from '#db/queries/people.ts'
import { type NamedPerson, nameProblem } from '#model/people/index.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { Services } from './services.ts'

/**
 * Refuses to add, rename or bring back somebody under a name that another person of the project has.
 * @param entry about a person
 * @param earlier what stands before it in the same append
 * @throws EntryRefused with the sentence beside the name
 */
export function requireOwnName(
  { record }: Services,
  entry: CheckedEntry,
  earlier: readonly CheckedEntry[],
): void {
  if (entry.kind !== 'person-added') return
  const { people } = companyOf(record.current().read, entry.project)
  const added = earlier.filter((one) => one.kind === 'person-added' && one.project === entry.project)
  const person = personIn(entry)
  const problem = nameProblem(person, [...people, ...added.map(personIn)])
  if (problem === null) return
  throw new EntryRefused(entry.id, [{ field: 'body.name', value: person.name, message: problem }])
}

function personIn({ id, corrects, subject, body }: CheckedEntry): NamedPerson {
  return { id: corrects === undefined ? id : subject, name: body.name as string }
}
