import { useQuery, useQueryClient } from '@tanstack/react-query'
import type { PinSheet, PinStanding } from '#model/contract/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { client, orpc } from './client.ts'
import { useJob } from './job.tsx'

/** A proof runs out and a wait runs down without anybody doing anything: so it is asked again now and then [ms]. */
const askAgainMs = 20_000

/** How it stands with the PINs of this project; undefined until the host has answered. */
export function usePins() {
  const { id } = useJob()
  const { data, error } = useQuery({
    ...orpc.people.status.queryOptions({ input: { project: id } }),
    refetchInterval: ({ state }) => (state.data !== undefined && isRunning(state.data) ? askAgainMs : false),
  })
  return { sheet: data, error }
}

function isRunning({ people }: PinSheet): boolean {
  return people.some(({ provenForMs, waitMs }) => provenForMs !== null || waitMs > 0)
}

export function standingOf(sheet: PinSheet | undefined, person: string | null): PinStanding | null {
  return sheet?.people.find((one) => one.person === person) ?? null
}

/** Forgets the proof of one person, or of everybody. */
export function useLock() {
  const queries = useQueryClient()
  return async (person?: PersonId) => {
    await client.people.lock(person === undefined ? {} : { person })
    await queries.invalidateQueries({ queryKey: orpc.people.key() })
  }
}
