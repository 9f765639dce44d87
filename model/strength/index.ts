export { type AgeMethod, type AgeOptions, agingFactor, equivalentAgeDays } from './equivalent-age.ts'
export { type FrostAnswer, type FrostQuestion, frostCheck } from './frost.ts'
export { type Maturity, maturityCh, maturityGainedCh, maturityOf } from './maturity.ts'
export { ageForStrengthDays, type CementClass, strengthRatio } from './strength-gain.ts'
export { defaultMaxGapHours, type TemperatureReading } from './temperature-series.ts'
export {
  type TrafficAnswer,
  type TrafficKind,
  type TrafficPermission,
  trafficGate,
  trafficKinds,
} from './traffic.ts'
export { whyFrost, whyMaturity, whyStrength } from './why.ts'
