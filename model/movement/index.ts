export { type BayQuestion, type BayShape, bayShape, checkBay } from './bay.ts'
export { edgeStripMm, thermalMovementMm } from './edge.ts'
export { areaOf, type Corner, cleanOutline, isInside, type Point, type Segment } from './polygon.ts'
export {
  basicDryingShrinkage,
  dryingShrinkageStrain,
  type ShrinkageQuestion,
} from './shrinkage.ts'
