export { type CauseCode, causeCodes, causes, symptomPoints } from './causes.ts'
export {
  type EvidenceId,
  type EvidenceItem,
  evidenceIds,
  evidenceItem,
  evidenceItems,
  weightsVersion,
} from './evidence.ts'
export {
  type Band,
  bandOf,
  type CauseScore,
  type EvidenceState,
  type ScorePart,
  scoreCauses,
} from './score.ts'
