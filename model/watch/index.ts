export * from './alert.ts'
export { type Family, families } from './rule.ts'
export type * from './today.ts'
export { isOpen, watchBay } from './watch.ts'
