export { type HoldsUntil, holdsUntil } from './holds-until.ts'
export { readinessOf } from './readiness.ts'
export type * from './verdict.ts'
export { verdictOf } from './verdict-of.ts'
