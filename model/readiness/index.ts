export { readinessOf } from './readiness.ts'
export type * from './verdict.ts'
export { verdictOf } from './verdict-of.ts'
