import type { EntryId } from '../record/ids.ts'
import type { BayStory } from '../record/story.ts'
import type { SymptomCode } from '../record/words.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import type { CauseCode, Points } from './causes.ts'
import type { EvidenceId } from './evidence.ts'
import type { Band } from './score.ts'
import type { LookMethod } from './words.ts'

// Evidence ----------------------------------------------------------------------------------------------------------

/** Three states. "Not examined" adds exactly nothing and is never read as good. */
export type EvidenceFinding = 'true' | 'false' | 'not examined'

/** One item of evidence with what shows it. */
export interface Evidence {
  id: EvidenceId
  group: string
  /** What would be true. */
  text: string
  state: EvidenceFinding
  /** False for an item that cannot be asked of this bay or this fault (then `state` is "false"). */
  applies: boolean
  /** The numbers in words, or why nobody can tell. */
  because: string
  entries: string[]
  /** Read out of the record, or answered by a person who looked. */
  source: 'record' | 'person'
  method: LookMethod | null
  /** A sample or look whose place on the bay is known. */
  located: boolean
  /** In words, when the record and a person who looked say different things of this one item. */
  contradicted: string | null
  /** The entry of the symptom that a person looked at; null for what the record of the bay tells. */
  defect: string | null
}

export interface EvidenceQuestion {
  /** The entry that found the defect; null to read a bay as a whole, as for a neighbour. */
  defect: EntryId | string | null
  /** Entries of the other symptoms that were found in the same look: one fault, so what was noted of them counts as well. */
  further?: readonly string[]
  story: BayStory
  /** Nothing later is known. ISO instant with offset, or epoch milliseconds. */
  asOf: string | number
  /** The project's own, when left out. */
  rules?: EffectiveRules
  /** Those of the defect, when left out. */
  symptoms?: readonly SymptomCode[]
}

/** An answer that is not (yet) an entry: what a person would find, or found elsewhere. */
export interface TypedEvidence {
  id: EvidenceId
  state: EvidenceFinding
  because?: string
  entries?: string[]
  method?: LookMethod
  located?: boolean
}

// Weights -----------------------------------------------------------------------------------------------------------

/** Symptom points and evidence weights. Judgement, not statistics: versioned, editable, kept with every diagnosis. */
export interface CauseWeights {
  /** "1" for the weights built in, else the number of the project's version. */
  version: string
  reason: string
  /** The entry that set them; null for those built in. */
  entry: string | null
  provenCases: number
  points: Readonly<Record<CauseCode, Readonly<Partial<Record<SymptomCode, Points>>>>>
  evidence: Readonly<Record<EvidenceId, Readonly<Partial<Record<CauseCode, number>>>>>
}

// Diagnosis ---------------------------------------------------------------------------------------------------------

export interface DiagnosisQuestion {
  symptoms: readonly SymptomCode[]
  story: BayStory
  /** The entry that found the defect; left out for a look at the bay as a whole. */
  defect?: EntryId | string | null
  /** Entries of the other symptoms of the same fault. */
  further?: readonly string[]
  /** Answers that are not in the record; they count before those that are. */
  tests?: readonly TypedEvidence[]
  /** Stories of other bays, to compare with. */
  neighbours?: readonly BayStory[]
  asOf: string | number
  /** Those the project set last, else those built in. */
  weights?: CauseWeights
  rules?: EffectiveRules
}

/** One part of a cause's log-odds, with what shows it. */
export interface CausePart {
  /** A symptom, an item of evidence, or the comparison with sound neighbours. */
  from: SymptomCode | EvidenceId | 'neighbours'
  kind: 'start' | 'further symptom' | 'evidence' | 'neighbours'
  /** As counted, in log-odds. */
  weight: number
  /** True when another item of its group counted in full and this one by half. */
  halved: boolean
  text: string
  because: string
  entries: string[]
}

export interface Conflict {
  cause: CauseCode
  /** Two items for and against one cause, or one item on which record and look differ. */
  kind: 'two items' | 'one item'
  supports: Evidence
  refutes: Evidence
  /** "Record and test disagree: which is wrong?", with both sides. */
  question: string
  /** What outranks the other: a laboratory result on a located sample before a typed line. */
  outranks: EvidenceId | null
  /** The probability of the cause if only one of them holds; no average is taken. */
  ifSupports: number
  ifRefutes: number
}

export interface DiagnosedCause {
  id: CauseCode
  words: string
  logOdds: number
  /** Null while a conflict stands: no score is given. For display; never above 0.97 or below 0.03. */
  probability: number | null
  band: Band | null
  /** True: next to nothing was examined, so "possible" means "nobody has looked". Drawn hollow. */
  hollow: boolean
  /** Sum of |weight| of the evidence that was found true. */
  weighed: number
  parts: CausePart[]
  supports: Evidence[]
  refutes: Evidence[]
  /** What was not examined and would move this cause by 0.5 or more, in words, heaviest first. */
  missing: string[]
  missingIds: EvidenceId[]
  conflict: Conflict | null
}

/** A look or a test that can still be made. */
export interface NextTest {
  /** Name of the test. */
  name: string
  how: string
  cost: 'minutes' | 'hour' | 'laboratory'
  costClass: 1 | 2 | 4
  caution: string | null
  /** The items of evidence that it answers and that are not examined. */
  evidence: EvidenceId[]
  /** The leading causes that it tells apart. */
  splits: CauseCode[]
  /** Sum over the four leading causes of p(1 − p)·|weight|, over the cost class; the ranking. */
  score: number
  /** Mutual information between the result and the four leading causes, taken as independent. */
  expectedInformationBits: number
  why: string
}

export interface NeighbourComparison {
  bay: string
  name: string
  /** Only a bay that is proven sound speaks against a cause. */
  standing: 'proven sound' | 'has a fault' | 'not proven'
  because: string
  entries: string[]
  /** Evidence true here and there. */
  same: EvidenceId[]
  /** Evidence true here and false there: what was different. */
  different: { id: EvidenceId; here: string; there: string }[]
  /** Causes that lost 1.0 because what supports them is equally true there. */
  lowers: CauseCode[]
}

export interface Diagnosis {
  asOf: number
  symptoms: SymptomCode[]
  defect: string | null
  weightsVersion: string
  /** Highest first; conflicts at their place as if both sides counted. */
  causes: DiagnosedCause[]
  conflicts: Conflict[]
  evidence: Evidence[]
  neighbours: NeighbourComparison[]
  /** Examined discriminating items in a hundred of those with |weight| of 1 or more for the top three causes. */
  recordStrengthPercent: number
  /** True below 40 %: the record is too thin to name a cause. */
  tooThin: boolean
  /** One sentence to stand above the ranking. */
  words: string
  /** Up to three, best first. */
  nextTests: NextTest[]
  nextTest: NextTest | null
}

// Movement ----------------------------------------------------------------------------------------------------------

export interface GaugeReading {
  at: string | number
  widthMm: number
  surfaceC?: number | null
  place?: string | null
  entry?: string
}

export interface Movement {
  verdict: 'live' | 'dormant' | 'not known'
  /** Largest change at one place; null with fewer than two readings at one place. */
  changeMm: number | null
  /** Days between the first and the last reading at that place. */
  days: number | null
  followsTemperature: 'yes' | 'no' | 'not known'
  words: string
  /** What would settle it; null when settled. */
  measure: string | null
  entries: string[]
}
