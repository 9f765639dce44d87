import type { PersonId } from '#model/record/ids.ts'
import { useJob } from './job.tsx'
import { recall, remember } from './memory.ts'
import { createStore, useStore } from './store.ts'

const chosen = createStore<string | null>(recall('writer'))

export function chooseWriter(person: PersonId): void {
  remember('writer', person)
  chosen.set(person)
}

/** Who is writing: the person picked on this machine; alone on the project, that one. Null until somebody is picked. */
export function useWriter(): PersonId | null {
  const wanted = useStore(chosen)
  const { people } = useJob().outline
  const found = people.find(({ id }) => id === wanted)
  return found?.id ?? (people.length === 1 ? people[0]!.id : null)
}
