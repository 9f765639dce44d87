export { type BatchMasses, checkProportions, type Proportions, proportionsOf } from './batch.ts'
export {
  type BandSieve,
  type Coarseness,
  coarsenessOf,
  finenessModulus,
  gradeBand,
  type Passing,
} from './grading.ts'
export { massBalance } from './quantity.ts'
export { isMixKnown, isSameMix, type Mix, mixOf } from './same-mix.ts'
export { whyProportions } from './why.ts'
