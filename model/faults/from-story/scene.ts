import { InputError, requireInstant } from '../../errors.ts'
import type { Point } from '../../movement/polygon.ts'
import type { StoryEntryOf } from '../../record/entry.ts'
import { type BayStory, entriesOf, storyAsOf } from '../../record/story.ts'
import type { SymptomCode } from '../../record/words.ts'
import type { EffectiveRules } from '../../rules/effective.ts'
import { rulesOfProject } from '../../rules/project-rules.ts'
import { type BayFacts, factsOf } from '../../watch/facts/index.ts'
import { dayMs, siteClock } from '../../watch/facts/time.ts'
import type { EvidenceFinding, EvidenceQuestion } from '../shapes.ts'

/** What an item of evidence is answered with. */
export interface Answer {
  state: EvidenceFinding
  because: string
  entries: string[]
  /** False for an item that cannot be asked of this bay or this fault: it is neither examined nor missing. */
  applies: boolean
}

export const yes = (because: string, entries: readonly string[] = []): Answer => ({
  state: 'true',
  because,
  entries: [...new Set(entries)],
  applies: true,
})
export const no = (because: string, entries: readonly string[] = []): Answer => ({
  state: 'false',
  because,
  entries: [...new Set(entries)],
  applies: true,
})
export const unseen = (because: string, entries: readonly string[] = []): Answer => ({
  state: 'not examined',
  because,
  entries: [...new Set(entries)],
  applies: true,
})

/** The item cannot be true here: a joint in the base of a fault that is no crack. */
export const notAsked = (because: string, entries: readonly string[] = []): Answer => ({
  ...no(because, entries),
  applies: false,
})

/** Cracks, as against weakness, hollowness and damp. */
export const crackSymptoms: readonly SymptomCode[] = ['S04', 'S05', 'S06', 'S07', 'S08', 'S09', 'S16']

/** A defect and everything that the record knows about it, read once. */
export interface Scene {
  /** Cut at `asOf`. */
  story: BayStory
  facts: BayFacts
  rules: EffectiveRules
  asOf: number
  /** Finish of the bay, or what stands for it; null when nobody knows. */
  t0: number | null
  defect: StoryEntryOf<'defect-found'> | null
  /** Every symptom of the fault, the main one first; empty for the bay as a whole. */
  defects: readonly StoryEntryOf<'defect-found'>[]
  symptoms: readonly SymptomCode[]
  isCrack: boolean
  /** Points of the defect on the plan; null when nobody said where it is. */
  place: readonly Point[] | null
  /** The earliest and the latest instant at which it can have been seen first. */
  firstSeen: { from: number; until: number } | null
  cementBound: boolean
}

/**
 * Reads a story as of an instant for one defect, or for the bay as a whole.
 *
 * @throws InputError when the instant is not one or the story has no such defect by then.
 */
export function sceneOf(question: EvidenceQuestion): Scene {
  const asOf = requireInstant('asOf', question.asOf)
  const story = storyAsOf(question.story, asOf)
  const rules = question.rules ?? rulesOfProject(story.project.body)
  const facts = factsOf(story, asOf, rules)
  const defects = [...new Set([question.defect, ...(question.further ?? [])])]
    .filter((id) => id !== null)
    .map((id) => defectOf(story, id))
  const defect = defects[0] ?? null
  const symptoms = question.symptoms ?? defects.map(({ body }) => body.symptom as SymptomCode)
  return {
    story,
    facts,
    rules,
    asOf,
    t0: facts.life.t0,
    defect,
    defects,
    symptoms,
    isCrack: symptoms.some((code) => crackSymptoms.includes(code)),
    place: defects.map(({ body }) => placeOf(body)).find((place) => place !== null) ?? null,
    firstSeen: firstSeenOf(story, defects),
    cementBound: facts.life.cementBound,
  }
}

function defectOf(story: BayStory, id: string): StoryEntryOf<'defect-found'> {
  const found = entriesOf(story, 'defect-found').find((one) => one.id === id)
  if (found === undefined) {
    throw new InputError(
      'defect',
      `defect is ${JSON.stringify(id)}; no such defect was found on this bay by that time. Name the entry that found it.`,
    )
  }
  return found
}

export function placeOf({ outline, x, y }: StoryEntryOf<'defect-found'>['body']): readonly Point[] | null {
  if (outline !== undefined && outline.length > 0) return outline
  return x !== undefined && y !== undefined ? [{ x, y }] : null
}

/** The earliest day on which any symptom was seen, of the site's calendar; the hour is known when it was recorded on that day. */
function firstSeenOf(story: BayStory, defects: Scene['defects']): Scene['firstSeen'] {
  const earliest = defects.toSorted((a, b) => (a.body.firstSeenOn < b.body.firstSeenOn ? -1 : 1))[0]
  if (earliest === undefined) return null
  const { body, happenedAt } = earliest
  const noon = Date.parse(`${body.firstSeenOn}T12:00:00Z`)
  const from = siteClock(noon, story.timeZone, 0)
  const until = siteClock(noon, story.timeZone, 0, 1) - 1
  return { from, until: Math.max(from, Math.min(until, happenedAt)) }
}

/** "3.2 days" after the finish. */
export function ageText(t0: number, at: number): string {
  return `${oneDigit((at - t0) / dayMs)} days after the finish`
}

/** "2026-01-05 05:10" on the site's clock. */
export function clockText(at: number, timeZone: string): string {
  const parts = new Intl.DateTimeFormat('sv-SE', {
    timeZone,
    dateStyle: 'short',
    timeStyle: 'short',
  }).format(at)
  return parts
}

/** "−1.2 °C" */
export function degrees(tempC: number): string {
  return `${oneDigit(tempC)} °C`.replace('-', '−')
}

export function oneDigit(value: number): number {
  return Math.round(value * 10) / 10
}

export function twoDigits(value: number): number {
  return Math.round(value * 100) / 100
}
