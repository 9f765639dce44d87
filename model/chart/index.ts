export {
  inRows,
  type Lane,
  type LaneItem,
  type LaneName,
  type LaneWords,
  laneNames,
  lanesOf,
} from './lanes.ts'
export {
  firstIndexFrom,
  gapOf,
  type LinePoint,
  nearestIndex,
  type Readings,
  thinned,
} from './thin.ts'
export { type TimeTick, timeTicks } from './time-ticks.ts'
export { roundStep, type ValueScale, valueScale } from './value-ticks.ts'
