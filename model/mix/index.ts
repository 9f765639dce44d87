export { type BatchMasses, checkProportions, type Proportions, proportionsOf } from './batch.ts'
export {
  type BandSieve,
  type Coarseness,
  coarsenessOf,
  finenessModulus,
  gradeBand,
  type Passing,
} from './grading.ts'
export { batchesFor, massBalance } from './quantity.ts'
export { whyProportions } from './why.ts'
