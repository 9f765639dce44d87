import { useQuery } from '@tanstack/react-query'
import type { StoryEntry } from '#model/record/entry.ts'
import type { EntryId } from '#model/record/ids.ts'
import { orpc } from './client.ts'
import { useJob } from './job.tsx'

export interface FoundFact {
  fact: StoryEntry | null
  error: Error | null
  isPending: boolean
}

/** One fact with its history, by the id of any of its versions. */
export function useFact(id: string): FoundFact {
  const { id: project } = useJob()
  const history = useQuery(orpc.record.history.queryOptions({ input: { entry: id as EntryId } }))
  const standing = history.data?.versions.findLast(({ kind }) => kind !== 'entry-withdrawn')
  const moment = standing === undefined ? undefined : new Date(standing.happenedAt).toISOString()
  const list = useQuery({
    ...orpc.record.list.queryOptions({
      input: {
        project,
        kinds: standing === undefined ? [] : [standing.kind],
        from: moment,
        to: moment,
        limit: 500,
      },
    }),
    enabled: standing !== undefined,
  })
  const isThis = (entry: StoryEntry) => entry.versions.some((version) => version.id === id)
  return {
    fact: list.data?.entries.find(isThis) ?? null,
    error: history.error ?? list.error,
    isPending: history.isPending || (standing !== undefined && list.isPending),
  }
}
