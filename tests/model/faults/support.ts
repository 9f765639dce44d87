import {
  type DiagnosisQuestion,
  diagnose,
  type EvidenceId,
  evidenceIds,
  type TypedEvidence,
} from '#model/faults/index.ts'
import type { SymptomCode } from '#model/record/words.ts'
import { instant, type StoryBuilder, storyOf } from '../../support/story.ts'

export const t0 = instant('2026-01-05T14:00:00Z')
export const iso = (at: number): string => new Date(at).toISOString()

export const trueItems = (ids: string): TypedEvidence[] =>
  ids
    .split(' ')
    .filter((id) => id !== '')
    .map((id) => ({ id: id as EvidenceId, state: 'true' }))

/** Everything not named is "not examined", whatever the story says. */
export const onlyTrue = (ids: string): TypedEvidence[] => {
  const named = new Set(ids.split(' '))
  return evidenceIds.map((id) => ({ id, state: named.has(id) ? 'true' : 'not examined' }))
}

/** A diagnosis on an empty record with these answers of people. */
export function diagnosed(symptoms: SymptomCode[], ids: string, change: Partial<DiagnosisQuestion> = {}) {
  return diagnose({ symptoms, story: storyOf().build(), tests: trueItems(ids), asOf: t0, ...change })
}

export const ranked = (...args: Parameters<typeof diagnosed>): [string, number][] =>
  diagnosed(...args).causes.map(({ id, logOdds }) => [id, Number(logOdds.toFixed(2))])

/** Finds the symptom on the bay, seen first on a day. */
export function withDefect(
  story: StoryBuilder,
  symptom: SymptomCode,
  at: number,
  change: Record<string, unknown> = {},
): StoryBuilder {
  return story.note('defect-found', at, {
    symptom,
    firstSeenOn: iso(at).slice(0, 10),
    extent: 'part',
    ...change,
  })
}
