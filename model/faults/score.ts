import { InputError } from '../errors.ts'
import { type SymptomCode, symptoms as symptomWords } from '../record/words.ts'
import { type CauseCode, causeCodes, type Points } from './causes.ts'
import { type EvidenceId, evidenceIds, evidenceItem } from './evidence.ts'
import type { CauseWeights } from './shapes.ts'
import { builtInWeights, requireWeights, weightOf } from './weights.ts'

export type Band = 'supported' | 'possible' | 'unlikely' | 'refuted'
export type EvidenceState = Partial<Record<EvidenceId, boolean>>

export interface ScorePart {
  /** The evidence, or the symptom that gave the start. */
  evidenceId: EvidenceId | SymptomCode
  /** As counted: halved where another item of its group counted in full. */
  weight: number
}

export interface CauseScore {
  cause: CauseCode
  logOdds: number
  /** For display; clamped so that it never claims more than 97 %. */
  probability: number
  band: Band
  /** False: nothing of weight has been examined, so "possible" means "nobody has looked". */
  examined: boolean
  parts: ScorePart[]
  /** Two true items of opposite sign and weight: the record and a test disagree, and no average is taken. */
  conflict: { supports: EvidenceId; refutes: EvidenceId } | null
}

const startLogOdds: Record<Points, number> = { 5: 0, 4: -0.6, 3: -1.4, 2: -2.2, 1: -3, 0: -5 }
const clampAt = 3.5
/** Two true items this heavy, one for and one against a cause, are a contradiction and not an average. */
export const conflictFrom = 1.5
const examinedFrom = 1

/**
 * Returns every cause with its log-odds, highest first.
 * Causes are scored independently, so two can both be true. The strongest symptom gives the start; each further
 * symptom with 3 points or more adds 0.5, up to 1. Within a group of evidence the heaviest item counts in full and
 * the rest by half: the same fact seen twice is not two facts. What is absent was not examined and adds exactly 0.
 * @param symptoms codes S01–S17, at least one
 * @param evidence item → found true, or found false; absent is not examined. A false item adds nothing: the items
 * come in pairs where the opposite is evidence too.
 * @param weights those built in, unless the firm has its own
 * @errors InputError for an unknown code, no symptom, or a weight out of range
 * @provenance our judgement; weights are data, versioned and editable
 */
export function scoreCauses(
  symptoms: readonly SymptomCode[],
  evidence: EvidenceState,
  weights: CauseWeights = builtInWeights,
): CauseScore[] {
  requireSymptoms(symptoms)
  requireWeights(weights)
  for (const id of Object.keys(evidence)) {
    if (!evidenceIds.includes(id as EvidenceId))
      throw new InputError('evidence', `${id} is not an item of evidence.`)
  }
  const found = evidenceIds.filter((id) => evidence[id] === true)
  return causeCodes
    .map((cause) => scoreCause(cause, [...new Set(symptoms)], found, weights))
    .sort((a, b) => b.logOdds - a.logOdds)
}

/** Throws unless at least one symptom is named and all are known. */
export function requireSymptoms(symptoms: readonly SymptomCode[]): void {
  if (symptoms.length === 0)
    throw new InputError('symptoms', 'symptoms is empty; name at least one, S01 to S17.')
  for (const code of symptoms) {
    if (!Object.hasOwn(symptomWords, code))
      throw new InputError('symptoms', `${code} is not a symptom; codes go from S01 to S17.`)
  }
}

/** The probability shown for log-odds; clamped, so that it never claims more than 97 %. */
export function shownProbability(logOdds: number): number {
  return 1 / (1 + Math.exp(-Math.min(clampAt, Math.max(-clampAt, logOdds))))
}

function scoreCause(
  cause: CauseCode,
  symptoms: SymptomCode[],
  found: EvidenceId[],
  weights: CauseWeights,
): CauseScore {
  const parts = [...symptomParts(cause, symptoms, weights), ...evidenceParts(cause, found, weights)]
  const logOdds = parts.reduce((sum, part) => sum + part.weight, 0)
  const probability = shownProbability(logOdds)
  const weighed = found.reduce((sum, id) => sum + Math.abs(weightOf(weights, id, cause)), 0)
  return {
    cause,
    logOdds,
    probability,
    band: bandOf(probability),
    examined: weighed >= examinedFrom,
    parts,
    conflict: conflictOf(cause, found, weights),
  }
}

function symptomParts(cause: CauseCode, symptoms: SymptomCode[], weights: CauseWeights): ScorePart[] {
  const points = symptoms
    .map((code) => ({ code, points: weights.points[cause][code] ?? 0 }))
    .sort((a, b) => b.points - a.points)
  const [strongest, ...further] = points
  const bonus = further.filter((symptom) => symptom.points >= 3).slice(0, 2)
  return [
    { evidenceId: strongest!.code, weight: startLogOdds[strongest!.points] },
    ...bonus.map((symptom) => ({ evidenceId: symptom.code, weight: 0.5 })),
  ]
}

function evidenceParts(cause: CauseCode, found: EvidenceId[], weights: CauseWeights): ScorePart[] {
  const weight = (id: EvidenceId) => weightOf(weights, id, cause)
  const telling = found.filter((id) => weight(id) !== 0)
  const groups = Map.groupBy(telling, (id) => evidenceItem(id).group)
  return [...groups.values()].flatMap((ids) =>
    ids
      .toSorted((a, b) => Math.abs(weight(b)) - Math.abs(weight(a)))
      .map((id, i) => ({ evidenceId: id, weight: weight(id) * (i === 0 ? 1 : 0.5) })),
  )
}

function conflictOf(cause: CauseCode, found: EvidenceId[], weights: CauseWeights): CauseScore['conflict'] {
  const supports = found.find((id) => weightOf(weights, id, cause) >= conflictFrom)
  const refutes = found.find((id) => weightOf(weights, id, cause) <= -conflictFrom)
  return supports === undefined || refutes === undefined ? null : { supports, refutes }
}

export function bandOf(probability: number): Band {
  if (probability >= 0.75) return 'supported'
  if (probability >= 0.35) return 'possible'
  if (probability >= 0.1) return 'unlikely'
  return 'refuted'
}
