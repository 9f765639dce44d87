import { useQuery } from '@tanstack/react-query'
import type { StoryEntry, StoryEntryOf } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import { client } from '../../app/client.ts'

const drawnKinds = [
  'joint-formed',
  'batch-mixed',
  'moisture-read',
  'soundness-tested',
  'thickness-measured',
  'defect-found',
  'defect-closed',
] as const satisfies KindName[]
type DrawnKind = (typeof drawnKinds)[number]

/** What stands on a plan besides the bays: all that was recorded with a place, newest first. */
export function useFloorFacts(project: ProjectId) {
  return useQuery({
    queryKey: ['facts on the plan', project],
    queryFn: async ({ signal }) => {
      const facts: StoryEntry[] = []
      let before: number | undefined
      do {
        const page = await client.record.list(
          { project, kinds: [...drawnKinds], limit: 500, before },
          { signal },
        )
        facts.push(...page.entries.filter(({ withdrawn }) => !withdrawn))
        before = page.next ?? undefined
      } while (before !== undefined)
      return facts
    },
  })
}

/** Those of one kind that are about these bays. */
export function factsOf<K extends DrawnKind>(
  facts: readonly StoryEntry[],
  kind: K,
  bays: ReadonlySet<string>,
): StoryEntryOf<K>[] {
  return facts.filter((fact) => fact.kind === kind && bays.has(fact.subject)) as unknown as StoryEntryOf<K>[]
}
