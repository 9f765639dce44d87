import type { SymptomCode } from '../record/words.ts'
import type { CauseCode } from './causes.ts'
import { evidenceItem } from './evidence.ts'
import { conflictFrom, scoreCauses, shownProbability } from './score.ts'
import type { CauseWeights, Conflict, Evidence } from './shapes.ts'
import { weightOf } from './weights.ts'

/**
 * Returns the contradiction on one cause, or null: two true items of weight 1.5 or more, one for and one against it, or one
 * such item that the record answers one way and a person the other way. No average is taken; both outcomes are told.
 *
 * @provenance our judgement
 */
export function conflictOn(
  cause: CauseCode,
  evidence: readonly Evidence[],
  symptoms: readonly SymptomCode[],
  weights: CauseWeights,
): Conflict | null {
  const weight = ({ id }: Evidence) => weightOf(weights, id, cause)
  const shown = evidence.filter(({ state }) => state === 'true')
  const heaviest = (sign: 1 | -1) =>
    shown
      .filter((item) => sign * weight(item) >= conflictFrom)
      .toSorted((a, b) => Math.abs(weight(b)) - Math.abs(weight(a)))[0]
  const probabilityWithout = (left: readonly Evidence['id'][]) => {
    const state = Object.fromEntries(shown.filter(({ id }) => !left.includes(id)).map(({ id }) => [id, true]))
    const score = scoreCauses(symptoms, state, weights).find((one) => one.cause === cause)!
    return shownProbability(score.logOdds)
  }
  const [supports, refutes] = [heaviest(1), heaviest(-1)]
  if (supports !== undefined && refutes !== undefined) {
    const against = shown.filter((item) => weight(item) <= -conflictFrom).map(({ id }) => id)
    const inFavour = shown.filter((item) => weight(item) >= conflictFrom).map(({ id }) => id)
    return {
      cause,
      kind: 'two items',
      supports,
      refutes,
      question: `${opening(supports, refutes)} ${supports.because} But: ${refutes.because}`,
      outranks: outranking(supports, refutes),
      ifSupports: probabilityWithout(against),
      ifRefutes: probabilityWithout(inFavour),
    }
  }
  const doubted = evidence.find(
    (item) => item.contradicted !== null && Math.abs(weight(item)) >= conflictFrom,
  )
  if (doubted === undefined) return null
  const isTrue = doubted.state === 'true'
  const withIt = (() => {
    const state = Object.fromEntries([...shown, doubted].map(({ id }) => [id, true]))
    return shownProbability(scoreCauses(symptoms, state, weights).find((one) => one.cause === cause)!.logOdds)
  })()
  const withoutIt = probabilityWithout([doubted.id])
  const raises = weight(doubted) > 0
  return {
    cause,
    kind: 'one item',
    supports: doubted,
    refutes: doubted,
    question: `Record and look disagree: which is wrong? ${doubted.text}. ${doubted.because}. ${doubted.contradicted}`,
    outranks: isTrue && fromLaboratory(doubted) ? doubted.id : null,
    ifSupports: raises ? withIt : withoutIt,
    ifRefutes: raises ? withoutIt : withIt,
  }
}

function opening(a: Evidence, b: Evidence): string {
  const tested = [a, b].some((item) => item.source === 'person' || evidenceItem(item.id).from === 'test')
  return tested
    ? 'Record and test disagree: which is wrong?'
    : 'Two lines of the record disagree: which is wrong?'
}

/** A laboratory result on a sample whose place is known goes before a typed line of the log. */
function outranking(a: Evidence, b: Evidence): Evidence['id'] | null {
  const [aLab, bLab] = [fromLaboratory(a), fromLaboratory(b)]
  if (aLab === bLab) return null
  return aLab ? a.id : b.id
}

function fromLaboratory({ id, method, located }: Evidence): boolean {
  return located && (method === 'laboratory' || (method === null && evidenceItem(id).where === 'lab'))
}
