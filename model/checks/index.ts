export { type BaseUnderScreed, constructionOnBase } from './base.ts'
export { type CardAnswer, crackCard, identificationCard } from './crack-card.ts'
export { dryingDays, whyDryingDays } from './drying-days.ts'
export { checkGauge, checkLevel, checkRegularity, gaugeLimit, type RegularityClass } from './flatness.ts'
export {
  checkHeating,
  type HeatingAnswer,
  type HeatingProgramme,
  type HeatingReading,
} from './heating/check.ts'
export type { FollowedStep } from './heating/follow.ts'
export { type HeatingLevel, levelsOf } from './heating/levels.ts'
export { type HeatingPlan, type HeatingPlanId, heatingPlans, holdDaysByThickness } from './heating/plans.ts'
export type { CautionedResult } from './judge.ts'
export { acceptMoisture, type MoistureAcceptance, moistureUnit } from './moisture/accept.ts'
export { emissionRate } from './moisture/emission.ts'
export { type MoistureLimitQuestion, moistureLimit, whyMoistureLimit } from './moisture/limit.ts'
export { probeCount, probeDepthMm } from './moisture/probe.ts'
export type { MoistureTest, TestContext } from './moisture/test.ts'
export {
  checkSoundness,
  footDiameterMm,
  type SoundnessCategory,
  type SoundnessTest,
  soundnessLimit,
  soundnessPoints,
} from './soundness.ts'
export { checkSurfaceClimate } from './surface-climate.ts'
export { checkThickness, type Loading, leastThickness, type ThicknessQuestion } from './thickness.ts'
