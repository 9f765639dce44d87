/** A person of a project as others read them: an entry, a page and a printed file say the name alone. */
export interface NamedPerson {
  id: string
  name: string
}

/**
 * Returns why somebody may not be written into a project under this name, as a sentence that says what to do instead;
 * null when they may. Two of one name could not be told apart on any page, and one person under two names would be their
 * own second pair of eyes.
 * @param person as they would stand
 * @param people those of the project; who shares a name already, since two records were merged, may stay as they are
 * @provenance our judgement
 */
export function nameProblem(person: NamedPerson, people: readonly NamedPerson[]): string | null {
  const before = people.find(({ id }) => id === person.id)
  if (before !== undefined && plain(before.name) === plain(person.name)) return null
  const other = people.find(({ id, name }) => id !== person.id && plain(name) === plain(person.name))
  if (other === undefined) return null
  return `“${other.name}” is somebody of this project already, and an entry shows no more than the name. If it is the same person, change what stands of them. If it is somebody else, write the name so that the two can be told apart.`
}

/** Letters without their case, and one blank where there are several. */
function plain(name: string): string {
  return name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase()
}
