export { type Amendment, amendmentsOf, type Change } from './amendments.ts'
export { auditOfBay, type BayAudit } from './bay.ts'
export {
  type Answer,
  type Completeness,
  completenessOf,
  type Requirement,
  type RequirementId,
  type RequirementState,
  requirementIds,
  requirements,
} from './completeness/index.ts'
export {
  type ClockJump,
  type Corroboration,
  comparedBays,
  corroborationOf,
  type HonestyRule,
  honestyRules,
  type Question,
  questionsOfBay,
  type Witness,
  witnesses,
} from './honesty/index.ts'
export { decisiveKinds, hoursLate, lateEntriesOf } from './lateness.ts'
export type { TestLine } from './moisture-tests.ts'
export { type Nonconformance, nonconformancesOf } from './nonconformances.ts'
export { type Release, releaseOf } from './release.ts'
