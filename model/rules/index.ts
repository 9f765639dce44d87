export * from './limit.ts'
