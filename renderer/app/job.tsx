import { useQuery } from '@tanstack/react-query'
import { createContext, type ReactNode, useContext, useMemo } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { ProjectId } from '#model/record/ids.ts'
import { chosenOf } from './chosen-project.ts'
import { orpc } from './client.ts'
import { recall, remember } from './memory.ts'
import { createStore, useStore } from './store.ts'
import { words } from './words.ts'

/** The project on screen: what stands in it, and the site's clock. */
export interface Job {
  id: ProjectId
  outline: ProjectOutline
  zone: string
  /** What a person calls the thing with this id: "Bay B4", "Level 1", "Nora Vale". */
  nameOf: (id: string) => string
}

const JobContext = createContext<Job | null>(null)
const chosen = createStore<string | null>(recall('project'))

export function chooseProject(id: string): void {
  remember('project', id)
  chosen.set(id)
}

/** The id of the chosen project, or of the first one; null in an empty record. */
export function useChosenProject() {
  const wanted = useStore(chosen)
  const { data, error, isPending, refetch } = useQuery(orpc.projects.list.queryOptions())
  const projects = data?.projects ?? []
  const project = chosenOf(projects, wanted)
  return { project, projects, error, isPending, refetch }
}

export function JobProvider({ outline, children }: { outline: ProjectOutline; children: ReactNode }) {
  const job = useMemo(() => jobOf(outline), [outline])
  return <JobContext value={job}>{children}</JobContext>
}

/** The project on screen. Only inside the shell, which shows no screen before a project is open. */
export function useJob(): Job {
  const job = useContext(JobContext)
  if (job === null) throw new Error('useJob stands outside the shell')
  return job
}

function jobOf(outline: ProjectOutline): Job {
  const names = new Map<string, string>([[outline.project.id, outline.project.body.name]])
  for (const { id, body } of [...outline.floors, ...outline.zones, ...outline.people])
    names.set(id, body.name)
  for (const { id, body } of outline.bays) names.set(id, words.names.bay(body.name))
  for (const { id, name } of outline.part?.named ?? []) names.set(id, words.names.bay(name))
  for (const { id, body } of outline.instruments)
    names.set(id, words.names.instrument(body.type, body.serial))
  return {
    id: outline.project.id,
    outline,
    zone: outline.project.body.timeZone,
    nameOf: (id) => names.get(id) ?? words.names.unknown,
  }
}
