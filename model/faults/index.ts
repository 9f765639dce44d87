export { type CauseCode, causeCodes, causes, type Points, symptomPoints } from './causes.ts'
export { diagnose, thinBelowPercent } from './diagnose.ts'
export {
  type EvidenceId,
  type EvidenceItem,
  evidenceIds,
  evidenceItem,
  evidenceItems,
  weightsVersion,
} from './evidence.ts'
export { evidenceFromStory } from './evidence-from-story.ts'
export { gaugeReadings, type Measures, measuresOf, movementOf } from './from-story/measures.ts'
export { crackSymptoms } from './from-story/scene.ts'
export { liveOrDormant, movementRules } from './movement.ts'
export { expectedBits } from './next-tests.ts'
export {
  type ConsolidantQuestion,
  type CutOut,
  consolidantKgPerM2,
  consolidantL,
  cutOut,
  cutOutAreaM2,
  type FillQuestion,
  type FillSteps,
  fillResinL,
  fillSteps,
} from './quantities.ts'
export { illustrativeRates, illustrativeWords, ratesOf } from './rates.ts'
export { mostDaysLeft } from './repair/ask.ts'
export { repairDecision } from './repair/decide.ts'
export { repairQuestionFromStory } from './repair/from-story.ts'
export { repairOptions } from './repair/options.ts'
export type * from './repair/shapes.ts'
export {
  type Band,
  bandOf,
  type CauseScore,
  type EvidenceState,
  type ScorePart,
  scoreCauses,
  shownProbability,
} from './score.ts'
export type * from './shapes.ts'
export { builtInWeights, weightsOf } from './weights.ts'
export {
  type LookMethod,
  lookMethods,
  type RateItem,
  type RepairOptionId,
  rateItemIds,
  rateItems,
  repairOptionIds,
  repairOptionWords,
  type StructuralSign,
  structuralSigns,
} from './words.ts'
