import type { StoryEntry } from '#model/record/entry.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { useJob } from '../../app/job.tsx'
import { askingOf } from '../../parts/entry-form/asking.ts'
import { type DraftValues, draftOfBody, recordedWall } from '../../parts/entry-form/draft.ts'
import { useLatest } from '../../parts/use-latest.ts'
import { useLayingBegan } from './use-laying-began.ts'

export interface Start {
  start: DraftValues
  /** The entry that something was carried over from; the form says so. */
  from: StoryEntry | null
  isPending: boolean
}

/** What a form starts with: what rarely changes, from the last entry of its kind, what the zone has agreed and what the bay's own lifts say. */
export function useStart(kind: KindName, subject: string): Start {
  const { outline, zone } = useJob()
  const { latest, isPending } = useLatest(kind, subject)
  const laying = useLayingBegan(kind === 'bay-finished' ? subject : null)
  const carried = askingOf(kind).carried ?? []
  const last: Record<string, unknown> = latest?.body ?? {}
  const body = Object.fromEntries(
    carried.filter((name) => last[name] !== undefined).map((name) => [name, last[name]]),
  )
  const agreed: DraftValues = {}
  if (kind === 'moisture-read') {
    const bay = outline.bays.find(({ id }) => id === subject)
    agreed.method = outline.zones.find(({ id }) => id === bay?.body.zone)?.body.moistureMethod
  }
  if (kind === 'batch-mixed')
    agreed.number = String(Number(latest?.subject === subject ? last.number : 0) + 1)
  if (kind === 'lift-laid') agreed.lift = String(latest?.subject === subject ? Number(last.lift) + 1 : 1)
  if (laying.began !== null) agreed.startedAt = recordedWall(laying.began, zone)
  const from = Object.keys(body).length > 0 ? latest : null
  return {
    start: { ...draftOfBody(kinds[kind].fields, body, zone), ...agreed },
    from,
    isPending: isPending || laying.isPending,
  }
}
