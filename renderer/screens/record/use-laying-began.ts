import { useQuery } from '@tanstack/react-query'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'

/**
 * When the lifts of a bay say that laying began, in epoch milliseconds: nobody has to say it twice. Null while it is
 * asked, and when no lift is written down.
 * @param bay null when it is not wanted
 */
export function useLayingBegan(bay: string | null): { began: number | null; isPending: boolean } {
  const { id: project } = useJob()
  const { data, isLoading } = useQuery({
    ...orpc.record.list.queryOptions({
      input: { project, kinds: ['lift-laid'], limit: 50, subject: bay ?? undefined },
    }),
    enabled: bay !== null,
  })
  const lifts = (data?.entries ?? []).filter(({ withdrawn }) => !withdrawn) as StoryEntryOf<'lift-laid'>[]
  const starts = lifts.map(({ body }) => Date.parse(body.startedAt))
  return { began: starts.length === 0 ? null : Math.min(...starts), isPending: isLoading }
}
