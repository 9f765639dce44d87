import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { NewEntry, RangeAnswer, Source } from '#model/record/entry.ts'
import type { EntryId, PersonId } from '#model/record/ids.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { client } from './client.ts'
import { newId } from './ids.ts'
import { useJob } from './job.tsx'
import { forgetLastWritten, noteWritten } from './last-written.ts'
import { withPin } from './pin-ask.ts'
import { useWriter } from './writer.ts'

/** What a screen wants written; project, zone of time and writer are filled in here. */
export interface Fact {
  /** Kept by the form until the answer came, so that pressing Save twice writes once. */
  id?: EntryId
  kind: KindName
  /** Left out for what this entry brings into being. */
  subject?: string
  happenedAt: string
  body: Record<string, unknown>
  answers?: RangeAnswer[]
  corrects?: EntryId
  reason?: string
  /** Typed, when left out. */
  source?: Source
}

/** Writes facts through the one call that writes. "Saved" may be said only after `mutateAsync` has resolved. */
export function useRecorder() {
  const job = useJob()
  const writer = useWriter()
  const queries = useQueryClient()
  return useMutation({
    mutationFn: async (facts: Fact[]) => {
      if (writer === null) throw new NobodyWrites()
      const entries = facts.map((fact) => entryOf(fact, job.id, job.zone, writer))
      return withPin(() => client.record.append({ entries }))
    },
    onSuccess: async ({ entries }) => {
      const written = entries.at(-1)
      if (written?.kind === 'entry-withdrawn') forgetLastWritten()
      else if (written !== undefined) noteWritten(written)
      await queries.invalidateQueries()
    },
  })
}

/** Nobody has said who is writing. */
export class NobodyWrites extends Error {}

export function entryOf(fact: Fact, project: string, zone: string, person: PersonId): NewEntry {
  const id = fact.id ?? newId<'entry'>()
  const begins = kinds[fact.kind].begins === true && fact.corrects === undefined
  return {
    id,
    project,
    subject: begins ? id : (fact.subject ?? id),
    kind: fact.kind,
    happenedAt: fact.happenedAt,
    zone,
    person,
    source: fact.source ?? 'typed',
    body: fact.body,
    answers: fact.answers ?? [],
    ...(fact.corrects === undefined ? {} : { corrects: fact.corrects }),
    ...(fact.reason === undefined ? {} : { reason: fact.reason }),
  }
}
