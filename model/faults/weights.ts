import { InputError } from '../errors.ts'
import { type BayStory, entriesOf } from '../record/story.ts'
import { type CauseCode, causeCodes, type Points, symptomPoints } from './causes.ts'
import { type EvidenceId, evidenceIds, evidenceItem, weightsVersion } from './evidence.ts'
import type { CauseWeights } from './shapes.ts'

/** The weights built in: our judgement, to be tuned by a firm after twenty or thirty proven cases. */
export const builtInWeights: CauseWeights = {
  version: String(weightsVersion),
  reason: 'Built in: our judgement, not statistics; tune after twenty to thirty proven cases.',
  entry: null,
  provenCases: 0,
  points: symptomPoints,
  evidence: Object.fromEntries(
    evidenceIds.map((id) => [id, evidenceItem(id).weights]),
  ) as CauseWeights['evidence'],
}

/**
 * Returns the weights in force in a story: those built in, with the changes that the project set last over them.
 *
 * A version replaces the one before it as a whole; what it does not name keeps the built-in weight.
 *
 * @param story already cut at the instant that counts.
 * @provenance our judgement, or the firm's own
 */
export function weightsOf(story: BayStory): CauseWeights {
  const set = entriesOf(story, 'cause-weights-set')
    .toSorted((a, b) => a.body.version - b.body.version)
    .at(-1)
  if (set === undefined) return builtInWeights
  const points = structuredClone(builtInWeights.points) as Record<CauseCode, Record<string, Points>>
  const evidence = structuredClone(builtInWeights.evidence) as Record<EvidenceId, Record<string, number>>
  for (const line of set.body.weights) evidence[line.evidence][line.cause] = line.weight
  for (const line of set.body.points ?? []) points[line.cause][line.symptom] = line.points as Points
  return {
    version: String(set.body.version),
    reason: set.body.reason,
    entry: set.id,
    provenCases: set.body.provenCases ?? 0,
    points,
    evidence,
  }
}

/** Throws unless every weight is a number from −5 to 5 and every point one from 0 to 5. */
export function requireWeights(weights: CauseWeights): void {
  for (const id of evidenceIds) {
    for (const [cause, weight] of Object.entries(weights.evidence[id] ?? {})) {
      if (!causeCodes.includes(cause as CauseCode))
        throw new InputError(`weights.evidence.${id}`, `${cause} is not a cause.`)
      if (!(weight >= -5 && weight <= 5)) {
        throw new InputError(
          `weights.evidence.${id}`,
          `The weight of ${id} for ${cause} is ${weight}; it must be a number from −5 to 5.`,
        )
      }
    }
  }
  for (const cause of causeCodes) {
    for (const [symptom, points] of Object.entries(weights.points[cause] ?? {})) {
      if ([0, 1, 2, 3, 4, 5].includes(points)) continue
      throw new InputError(
        `weights.points.${cause}`,
        `The points of ${symptom} for ${cause} are ${points}; they must be a whole number from 0 to 5.`,
      )
    }
  }
}

export const weightOf = (weights: CauseWeights, id: EvidenceId, cause: CauseCode): number =>
  weights.evidence[id][cause] ?? 0
