import type { BayStory } from '#model/record/story.ts'
import type { Provenance } from '#model/rules/limit.ts'
import type { Evidence } from '#model/watch/alert.ts'

/** Kinds of question that a careful reader asks a record before the other side does. */
export const honestyRules = {
  mass: 'Mass laid and mass expected',
  'copied series': 'Two logger records alike',
  'copied values': 'The same values written again',
  'flat series': 'A logger that did not move',
  'straight series': 'A logger on a straight line',
  'digit preference': 'Values that like 0 and 5',
  instrument: 'Instrument out of date on the day',
  'before it happened': 'Written before it happened',
  'clock went back': 'The clock of a machine went back',
  'clock change': 'A logger across the change of the clock',
  'late and decisive': 'Decisive facts written late',
  'one sitting': 'Many days written in one sitting',
} as const
export type HonestyRule = keyof typeof honestyRules

/** Something that wants an explanation. It is a question and no accusation: most of them have an innocent answer. */
export interface Question {
  /** The same for the same finding, so that a screen can keep it open. */
  id: string
  rule: HonestyRule
  asks: string
  /** What usually explains it. */
  innocent: string
  bays: string[]
  evidence: Evidence[]
  source: string
  provenance: Provenance
}

/** Takes the stories of bays one after another, keeps only what it compares, and asks when all have passed. */
export interface Comparison {
  add: (story: BayStory) => void
  questions: () => Question[]
}

export const ours = { source: 'Bayledger default', provenance: 'our judgement' } as const

/** At most this many lines of evidence are kept with a question; the count is said in words. */
export const mostEvidence = 12
