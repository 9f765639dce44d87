import { requireInstant } from '../errors.ts'
import { storyAsOf } from '../record/story.ts'
import { type SymptomCode, symptoms as symptomWords } from '../record/words.ts'
import { type CauseCode, causes as causeWords } from './causes.ts'
import { conflictOn } from './conflicts.ts'
import { type EvidenceId, evidenceIds } from './evidence.ts'
import { evidenceFromStory, withTests } from './evidence-from-story.ts'
import { compareNeighbours, neighbourPenalty } from './neighbours.ts'
import { nextTests } from './next-tests.ts'
import { bandOf, type CauseScore, requireSymptoms, scoreCauses, shownProbability } from './score.ts'
import type {
  CausePart,
  CauseWeights,
  Conflict,
  DiagnosedCause,
  Diagnosis,
  DiagnosisQuestion,
  Evidence,
  NeighbourComparison,
} from './shapes.ts'
import { weightOf, weightsOf } from './weights.ts'

/** Below this strength of the record no cause may be named from it. Our judgement [%]. */
export const thinBelowPercent = 40
/** Weights from here on tell causes apart; those above the second are worth naming as missing. */
const discriminates = 1
const worthMissing = 0.5
const hollowBelow = 1
const topCauses = 3
const leadingCauses = 4

/**
 * Returns what may have caused a fault: every cause with its probability, what speaks for and against it and where that
 * stands in the record, what nobody examined, which lines contradict each other, and what to look at next.
 *
 * The causes are scored apart and not shared out to 100 %: two can both be true. A contradiction is a question to a person
 * and gets no score. A judgement aid, not a finding: use a competent investigator before liability is alleged.
 *
 * @param question.symptoms codes S01–S17, at least one.
 * @param question.story cut at `asOf`; later facts are not known.
 * @param question.neighbours stories of other bays; only those proven sound lower a cause.
 * @throws InputError naming the field for an unknown symptom, item, defect or instant, or a weight out of range.
 * @accuracy the weights are our judgement, not statistics; tune them after twenty to thirty proven cases.
 * @provenance our judgement
 */
export function diagnose(question: DiagnosisQuestion): Diagnosis {
  requireSymptoms(question.symptoms)
  const asOf = requireInstant('asOf', question.asOf)
  const story = storyAsOf(question.story, asOf)
  const symptoms = [...new Set(question.symptoms)]
  const defect = question.defect ?? null
  const weights = question.weights ?? weightsOf(story)
  const read = evidenceFromStory({
    defect,
    further: question.further ?? [],
    story,
    asOf,
    rules: question.rules,
    symptoms,
  })
  const evidence = withTests(read, question.tests ?? [])
  const state = Object.fromEntries(
    evidence.filter((item) => item.state === 'true').map(({ id }) => [id, true]),
  )
  const scores = scoreCauses(symptoms, state, weights)
  const neighbours = compareNeighbours(evidence, question.neighbours ?? [], weights, asOf, question.rules)
  const causes = scores
    .map((score) => diagnosedCause(score, { evidence, symptoms, weights, neighbours }))
    .sort((a, b) => b.logOdds - a.logOdds)
  const recordStrengthPercent = strengthPercent(causes, evidence, weights)
  const tooThin = recordStrengthPercent < thinBelowPercent
  const unknown = new Set(evidence.filter((item) => item.state === 'not examined').map(({ id }) => id))
  const leading = causes
    .slice(0, leadingCauses)
    .map(({ id, words, logOdds }) => ({ id, words, probability: shownProbability(logOdds) }))
  const tests = nextTests(leading, unknown, weights)
  const conflicts = causes.flatMap(({ conflict }) => conflict ?? [])
  return {
    asOf,
    symptoms,
    defect,
    weightsVersion: weights.version,
    causes,
    conflicts,
    evidence,
    neighbours,
    recordStrengthPercent,
    tooThin,
    words: wordsOf(causes, conflicts, recordStrengthPercent, tooThin),
    nextTests: tests,
    nextTest: tests[0] ?? null,
  }
}

interface Known {
  evidence: readonly Evidence[]
  symptoms: readonly SymptomCode[]
  weights: CauseWeights
  neighbours: readonly NeighbourComparison[]
}

function diagnosedCause(score: CauseScore, known: Known): DiagnosedCause {
  const { evidence, symptoms, weights, neighbours } = known
  const { cause } = score
  const weight = (id: EvidenceId) => weightOf(weights, id, cause)
  const heavierFirst = (list: Evidence[]) =>
    list.toSorted((a, b) => Math.abs(weight(b.id)) - Math.abs(weight(a.id)))
  const shown = evidence.filter((item) => item.state === 'true')
  const missing = heavierFirst(
    evidence.filter((item) => item.state === 'not examined' && Math.abs(weight(item.id)) >= worthMissing),
  )
  const conflict = conflictOn(cause, evidence, symptoms, weights)
  const sound = neighbours.filter(({ lowers }) => lowers.includes(cause))
  const lowered = conflict === null && sound.length > 0
  const parts = [...partsOf(score, evidence, weight), ...(lowered ? [neighbourPart(sound)] : [])]
  const logOdds = parts.reduce((sum, part) => sum + part.weight, 0)
  const probability = conflict === null ? shownProbability(logOdds) : null
  const weighed = shown.reduce((sum, { id }) => sum + Math.abs(weight(id)), 0)
  return {
    id: cause,
    words: causeWords[cause],
    logOdds,
    probability,
    band: probability === null ? null : bandOf(probability),
    hollow: weighed < hollowBelow,
    weighed,
    parts,
    supports: heavierFirst(shown.filter(({ id }) => weight(id) > 0)),
    refutes: heavierFirst(shown.filter(({ id }) => weight(id) < 0)),
    missing: missing.map(({ id, text, because }) => `${id} ${text}: ${because}`),
    missingIds: missing.map(({ id }) => id),
    conflict,
  }
}

function partsOf(
  score: CauseScore,
  evidence: readonly Evidence[],
  weight: (id: EvidenceId) => number,
): CausePart[] {
  return score.parts.map(({ evidenceId, weight: counted }, i): CausePart => {
    const item = evidence.find(({ id }) => id === evidenceId)
    if (item === undefined) {
      const symptom = evidenceId as SymptomCode
      return {
        from: symptom,
        kind: i === 0 ? 'start' : 'further symptom',
        weight: counted,
        halved: false,
        text: symptomWords[symptom],
        because:
          i === 0
            ? `Starts at ${Math.round(100 * shownProbability(counted))} % for this symptom.`
            : 'A further symptom of it.',
        entries: [],
      }
    }
    return {
      from: item.id,
      kind: 'evidence',
      weight: counted,
      halved: counted !== weight(item.id),
      text: item.text,
      because: item.because,
      entries: item.entries,
    }
  })
}

function neighbourPart(sound: readonly NeighbourComparison[]): CausePart {
  return {
    from: 'neighbours',
    kind: 'neighbours',
    weight: neighbourPenalty,
    halved: false,
    text: 'What supports it is equally true of a sound neighbour',
    because: `${sound.map(({ name, because }) => `${name}: ${because}`).join(' ')}`,
    entries: sound.flatMap(({ entries }) => entries),
  }
}

/**
 * Share of what could tell the top three causes apart that was examined, shown true or false [%].
 * Items shown false count as examined although they add nothing to a score.
 */
function strengthPercent(
  causes: readonly DiagnosedCause[],
  evidence: readonly Evidence[],
  weights: CauseWeights,
): number {
  const top = causes.slice(0, topCauses).map(({ id }) => id)
  const asked = new Set(evidence.filter(({ applies }) => applies).map(({ id }) => id))
  const telling = evidenceIds.filter(
    (id) =>
      asked.has(id) &&
      top.some((cause: CauseCode) => Math.abs(weightOf(weights, id, cause)) >= discriminates),
  )
  const examined = telling.filter((id) => evidence.find((item) => item.id === id)!.state !== 'not examined')
  return telling.length === 0 ? 0 : (100 * examined.length) / telling.length
}

function wordsOf(
  causes: readonly DiagnosedCause[],
  conflicts: readonly Conflict[],
  strength: number,
  tooThin: boolean,
): string {
  const percent = Math.round(strength)
  if (conflicts.length > 0) return conflicts[0]!.question
  if (tooThin) return `The record is too thin to name a cause: ${percent} % of what could tell was examined.`
  const supported = causes.filter(({ band }) => band === 'supported')
  if (supported.length === 0)
    return `No cause is supported yet; ${percent} % of what could tell was examined.`
  const names = supported.map(({ words }) => words.toLowerCase()).join('; ')
  return `Supported: ${names}. ${percent} % of what could tell was examined. A judgement aid, not a finding.`
}
