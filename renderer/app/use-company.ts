import type { Company } from '#model/people/index.ts'
import { useJob } from './job.tsx'
import { useFact } from './use-fact.ts'

/** The people of this project and who opened it: what decides in which roles somebody may act. Null until it is read. */
export function useCompany(): Company | null {
  const { outline } = useJob()
  const { fact } = useFact(outline.project.id)
  if (fact === null) return null
  return {
    people: outline.people.map(({ id, body }) => ({ id, role: body.role })),
    openedBy: fact.versions[0]?.person ?? null,
  }
}
