import { useQuery } from '@tanstack/react-query'
import type { StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { orpc } from '../app/client.ts'
import { useJob } from '../app/job.tsx'

/** The last standing entry of a kind: on this subject, else anywhere in the project. */
export function useLatest(
  kind: KindName,
  subject?: string,
): { latest: StoryEntry | null; isPending: boolean } {
  const { id: project } = useJob()
  const input = { project, kinds: [kind], limit: 20 }
  const here = useQuery({
    ...orpc.record.list.queryOptions({ input: { ...input, subject } }),
    enabled: subject !== undefined,
  })
  const anywhere = useQuery(orpc.record.list.queryOptions({ input }))
  const first = (entries: StoryEntry[] | undefined) => entries?.find(({ withdrawn }) => !withdrawn) ?? null
  return {
    latest: first(here.data?.entries) ?? first(anywhere.data?.entries),
    isPending: (subject !== undefined && here.isPending) || anywhere.isPending,
  }
}
