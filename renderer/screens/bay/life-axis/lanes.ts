export {
  inRows,
  type Lane,
  type LaneItem,
  type LaneName,
  type LaneWords,
  laneNames,
  lanesOf,
} from '#model/chart/lanes.ts'
