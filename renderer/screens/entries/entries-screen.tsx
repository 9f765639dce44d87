import { Button } from '@mantine/core'
import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useParams } from 'wouter'
import type { StoryEntry } from '#model/record/entry.ts'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Empty, Page } from '../../parts/page.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { EntryFilters } from './entry-filters.tsx'
import { EntryTable } from './entry-table.tsx'
import { type Filters, inputOf, noFilters, passes } from './filters.ts'

const say = words.entries

/** Every fact of the project, newest happening first, with what is late, corrected, withdrawn or in conflict. */
export default function EntriesScreen() {
  const { subject } = useParams<{ subject?: string }>()
  const { id: project, zone } = useJob()
  const [filters, setFilters] = useState<Filters>({ ...noFilters, subject: subject ?? null })
  const input = inputOf(filters, zone)
  const { data, error, isPending, hasNextPage, fetchNextPage, isFetchingNextPage, refetch } =
    useInfiniteQuery({
      queryKey: ['entries', project, input],
      queryFn: ({ pageParam }) => client.record.list({ project, ...input, before: pageParam, limit: 100 }),
      initialPageParam: undefined as number | undefined,
      getNextPageParam: (page) => page.next ?? undefined,
    })
  const found = data?.pages.flatMap(({ entries }) => entries as StoryEntry[]) ?? []
  const shown = found.filter((entry) => passes(entry, filters))
  return (
    <Page title={say.title} lead={say.lead}>
      <EntryFilters filters={filters} onChange={setFilters} />
      {isPending && <Waiting />}
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {data !== undefined && shown.length === 0 && (
        <Empty
          title={found.length === 0 ? say.none : say.noneFits}
          action={<ActionLink href={paths.record}>{words.nav.record}</ActionLink>}
        >
          {found.length === 0 ? say.noneLead : say.noneFitsLead}
        </Empty>
      )}
      {shown.length > 0 && <EntryTable entries={shown} />}
      {hasNextPage && (
        <Button variant="default" mt="lg" onClick={() => void fetchNextPage()} loading={isFetchingNextPage}>
          {say.older}
        </Button>
      )}
    </Page>
  )
}
