import { type Act, roleProblem, rolesInForce } from '#model/people/index.ts'
import type { KindName } from '#model/record/kinds.ts'
import { useCompany } from './use-company.ts'
import { useWriter } from './writer.ts'

/**
 * Why the role of the one who writes does not let them do this, told before they fill anything in; null when it does, or
 * while nobody is picked. The host says the same when they try.
 */
export function useMayNot(kind: KindName, act: Act, body: Record<string, unknown> = {}): string | null {
  const writer = useWriter()
  const company = useCompany()
  if (writer === null || company === null) return null
  return roleProblem({ kind, act, body }, rolesInForce(writer, company))
}

/** The act of replacing a version: one's own, or another's. */
export function useActOn(version: { person: string }, what: 'correct' | 'withdraw'): Act {
  const isOwn = useWriter() === version.person
  return isOwn ? `${what} own` : `${what} another’s`
}
