import type { StoredOutline } from '#db/index.ts'
import { roles } from '#model/record/people.ts'

/** What people call the things of a project. */
export interface Names {
  /** "Bay B4", "Level 1", "Nora Vale", "Hygrometer 4417"; "unknown" for what the project does not hold. */
  of: (id: string) => string
  /** "Nora Vale, Quality manager". */
  personWithRole: (id: string) => string
}

export function namesIn({ project, floors, zones, bays, people, instruments }: StoredOutline): Names {
  const names = new Map<string, string>([[project.id, project.body.name]])
  for (const { id, body } of [...floors, ...zones, ...people]) names.set(id, body.name)
  for (const { id, body } of bays) names.set(id, bayName(body.name))
  for (const { id, body } of instruments)
    names.set(id, `${body.type.charAt(0).toUpperCase()}${body.type.slice(1)} ${body.serial}`)
  const of = (id: string) => names.get(id) ?? 'unknown'
  return {
    of,
    personWithRole: (id) => {
      const person = people.find((one) => one.id === id)
      return person === undefined ? of(id) : `${person.body.name}, ${roles[person.body.role]}`
    },
  }
}

/** "Bay B4"; a name that says "bay" already is left as it is. */
export function bayName(name: string): string {
  return /^bay\b/i.test(name) ? name : `Bay ${name}`
}
