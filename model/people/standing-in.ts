import { type Role, roles } from '#model/record/people.ts'

/** A person of a project who has not been withdrawn. */
export interface KnownPerson {
  id: string
  role: Role
}

/** The people of a project and who opened it. */
export interface Company {
  people: readonly KnownPerson[]
  /** Null when that is not known. */
  openedBy: string | null
}

const every = Object.keys(roles) as Role[]

/**
 * Returns the roles in which a person may act.
 *
 * Everybody acts in the one role they were given, with two exceptions for the opening of a project. Who is alone on it
 * may act in every role. While it has people but no quality manager, whoever opened it stands in for one. Both end by
 * themselves as soon as the person who is missing is added.
 * @returns none for somebody who is not of the project
 * @provenance our judgement
 */
export function rolesInForce(person: string, { people, openedBy }: Company): readonly Role[] {
  const found = people.find(({ id }) => id === person)
  if (found === undefined) return []
  if (people.length === 1) return every
  const standsIn = openedBy === person && !people.some(({ role }) => role === 'quality manager')
  return standsIn && found.role !== 'quality manager' ? [found.role, 'quality manager'] : [found.role]
}
