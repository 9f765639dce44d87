import type { CauseCode } from './causes.ts'
import type { EvidenceId } from './evidence.ts'
import { costClasses, type Look, looks } from './looks.ts'
import type { CauseWeights, NextTest } from './shapes.ts'
import { weightOf } from './weights.ts'

/** A leading cause with its probability as it stands. */
export interface Leading {
  id: CauseCode
  words: string
  probability: number
}

const offered = 3

/**
 * Returns the three looks or tests that would tell most about the leading causes for what they cost.
 *
 * Each item not yet examined scores Σ p(1 − p)·|weight| over the leading causes, divided by the class of its cost (1 minutes,
 * 2 hour, 4 laboratory); a test scores as its best item. Only looks that can still be made are offered.
 *
 * @param leading up to four causes, highest first.
 * @param unknown the items not examined.
 * @provenance the scheme and the classes are our judgement; see `expectedBits` for the information
 */
export function nextTests(
  leading: readonly Leading[],
  unknown: ReadonlySet<EvidenceId>,
  weights: CauseWeights,
): NextTest[] {
  return looks
    .flatMap((look) => scored(look, leading, unknown, weights))
    .toSorted((a, b) => b.score - a.score || b.expectedInformationBits - a.expectedInformationBits)
    .slice(0, offered)
}

function scored(
  look: Look,
  leading: readonly Leading[],
  unknown: ReadonlySet<EvidenceId>,
  weights: CauseWeights,
): NextTest[] {
  const items = look.answers.filter((id) => unknown.has(id))
  const gain = (id: EvidenceId) =>
    leading.reduce(
      (sum, { id: cause, probability: p }) => sum + p * (1 - p) * Math.abs(weightOf(weights, id, cause)),
      0,
    )
  const best = items.toSorted((a, b) => gain(b) - gain(a))[0]
  if (best === undefined || gain(best) === 0) return []
  const splits = leading.filter(({ id }) => items.some((item) => weightOf(weights, item, id) !== 0))
  const costClass = costClasses[look.cost]
  const expectedInformationBits = expectedBits(leading, items, weights)
  return [
    {
      name: look.name,
      how: look.how,
      cost: look.cost,
      costClass,
      caution: look.caution,
      evidence: items,
      splits: splits.map(({ id }) => id),
      score: gain(best) / costClass,
      expectedInformationBits,
      why: `Tells on ${splits.map(({ words }) => words.toLowerCase()).join('; ')}. About ${Math.round(100 * expectedInformationBits) / 100} bit expected, if it clears a cause as well as it shows one.`,
    },
  ]
}

/**
 * Returns the information that a test is expected to give about the leading causes [bit].
 *
 * Mutual information between the result and the causes, computed over every combination of them (they are taken as
 * independent, with the probabilities shown). The result is one of the items that are still open, or none of them. Weights say
 * only how much an item found true speaks for a cause; how well its absence clears the cause nobody has measured, so a test is
 * taken to be as good at the one as at the other: for one item and one cause its likelihood ratio is e^weight both ways.
 * Never above log2(items + 1).
 *
 * @source Shannon 1948, mutual information; Lindley 1956, expected information of an experiment (from memory).
 * @accuracy exact for the model stated; the model is a judgement, so read it as an order of merit.
 * @provenance our judgement
 */
export function expectedBits(
  leading: readonly Pick<Leading, 'id' | 'probability'>[],
  items: readonly EvidenceId[],
  weights: CauseWeights,
): number {
  const states = 2 ** leading.length
  const totals = new Array<number>(items.length + 1).fill(0)
  let within = 0
  for (let state = 0; state < states; state++) {
    const holds = (i: number) => ((state >> i) & 1) === 1
    const probability = leading.reduce(
      (product, { probability: p }, i) => product * (holds(i) ? p : 1 - p),
      1,
    )
    const raised = items.map((item) =>
      Math.exp(
        leading.reduce((sum, { id }, i) => sum + weightOf(weights, item, id) * (holds(i) ? 1 : -1), 0),
      ),
    )
    const whole = raised.reduce((sum, each) => sum + each, 1)
    const results = [...raised, 1].map((each) => each / whole)
    within += probability * entropyBits(results)
    for (const [i, result] of results.entries()) totals[i]! += probability * result
  }
  return Math.max(0, entropyBits(totals) - within)
}

function entropyBits(probabilities: readonly number[]): number {
  return probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0)
}
