import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense, useEffect } from 'react'
import { Banner } from '../parts/banner.tsx'
import { Waiting } from '../parts/waiting.tsx'
import { orpc } from './client.ts'
import { setClockFrom } from './clock.ts'
import { JobProvider, useChosenProject } from './job.tsx'
import { Routes } from './routes.tsx'
import { Shell } from './shell.tsx'
import { troubleOf } from './trouble.ts'

const Recovery = lazy(() => import('../screens/recovery/recovery-screen.tsx'))
const FirstRun = lazy(() => import('../screens/set-up/first-run-screen.tsx'))

/** Decides what this start is: a record that cannot be opened, an empty one, or work as usual. */
export function Gate() {
  const { data: host, error, isPending, refetch } = useQuery(orpc.host.info.queryOptions())
  useEffect(() => {
    if (host !== undefined) setClockFrom(host.now)
  }, [host])
  if (isPending) return <Waiting whole />
  if (host === undefined) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} whole />
  return (
    <Suspense fallback={<Waiting whole />}>
      {host.recordState.state === 'recovery' ? (
        <Recovery state={host.recordState} host={host} />
      ) : (
        <OpenRecord />
      )}
    </Suspense>
  )
}

function OpenRecord() {
  const { project, projects, error, isPending, refetch } = useChosenProject()
  if (isPending) return <Waiting whole />
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} whole />
  if (project === null) return <FirstRun />
  return <OpenProject key={project.id} id={project.id} projects={projects} />
}

type Projects = ReturnType<typeof useChosenProject>['projects']

function OpenProject({ id, projects }: { id: Projects[number]['id']; projects: Projects }) {
  const { data, error, refetch } = useQuery(orpc.projects.outline.queryOptions({ input: { project: id } }))
  if (data === undefined) {
    if (error === null) return <Waiting whole />
    return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} whole />
  }
  return (
    <JobProvider outline={data}>
      <Shell projects={projects}>
        <Routes />
      </Shell>
    </JobProvider>
  )
}
