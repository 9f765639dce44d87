import { QueryClient } from '@tanstack/react-query'
import { chosenOf } from './chosen-project.ts'
import { hasSession, orpc } from './client.ts'
import { isToday } from './early.ts'
import { recall } from './memory.ts'

/** The record is on this machine: an answer is fresh until something is written, and a failed call is shown, not retried. */
export const queries = new QueryClient({
  defaultOptions: {
    queries: { retry: false, staleTime: 30_000, refetchOnWindowFocus: true, networkMode: 'always' },
    mutations: { retry: false, networkMode: 'always' },
  },
})

/**
 * Brings in what the first screen needs before there is a screen: the answers that were asked for early, or the calls
 * themselves where there are none. They follow each other only where one needs the other's answer; a call that fails is
 * asked again, and its trouble shown, by the screen itself.
 */
export async function bringInFirst(): Promise<void> {
  if (!hasSession) return
  await Promise.all([queries.prefetchQuery(orpc.host.info.queryOptions()), bringInProject()])
}

async function bringInProject(): Promise<void> {
  await queries.prefetchQuery(orpc.projects.list.queryOptions())
  const projects = queries.getQueryData(orpc.projects.list.queryKey())?.projects ?? []
  const project = chosenOf(projects, recall('project'))?.id
  if (project === undefined) return
  const input = { project }
  await Promise.all([
    queries.prefetchQuery(orpc.projects.outline.queryOptions({ input })),
    isToday(window.location.hash) && queries.prefetchQuery(orpc.projects.today.queryOptions({ input })),
  ])
}
