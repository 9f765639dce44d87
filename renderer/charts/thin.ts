export {
  firstIndexFrom,
  gapOf,
  type LinePoint,
  nearestIndex,
  type Readings,
  thinned,
} from '#model/chart/thin.ts'
