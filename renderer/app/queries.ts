import { QueryClient } from '@tanstack/react-query'
import { hasSession, orpc } from './client.ts'
import { recall } from './memory.ts'
import { paths } from './paths.ts'

/** The record is on this machine: an answer is fresh until something is written, and a failed call is shown, not retried. */
export const queries = new QueryClient({
  defaultOptions: {
    queries: { retry: false, staleTime: 30_000, refetchOnWindowFocus: true, networkMode: 'always' },
    mutations: { retry: false, networkMode: 'always' },
  },
})

/** The project of this list that was looked at last, or its first. */
export function chosenOf<P extends { id: string }>(projects: readonly P[], wanted: string | null): P | null {
  return projects.find(({ id }) => id === wanted) ?? projects[0] ?? null
}

/**
 * Asks for what the first screen will ask for, before there is a screen. The calls of the gate follow each other only
 * where one needs the other's answer; a call that fails is asked again, and its trouble shown, by the screen itself.
 */
export async function askEarly(): Promise<void> {
  if (!hasSession) return
  void queries.prefetchQuery(orpc.host.info.queryOptions())
  await queries.prefetchQuery(orpc.projects.list.queryOptions())
  const projects = queries.getQueryData(orpc.projects.list.queryKey())?.projects ?? []
  const project = chosenOf(projects, recall('project'))
  if (project === null) return
  void queries.prefetchQuery(orpc.projects.outline.queryOptions({ input: { project: project.id } }))
  if (isToday(window.location.hash))
    void queries.prefetchQuery(orpc.projects.today.queryOptions({ input: { project: project.id } }))
}

function isToday(hash: string): boolean {
  return hash === '' || hash === '#' || hash === `#${paths.today}`
}
