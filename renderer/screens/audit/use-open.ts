import { useQuery } from '@tanstack/react-query'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'

/** Tests, alerts, hold points and non-conformances of the project: three parts of the page read the same answer. */
export function useOpen() {
  const { id } = useJob()
  return useQuery(orpc.audit.open.queryOptions({ input: { project: id } }))
}
