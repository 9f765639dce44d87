export { ASSUMED_SHUT_AIR_CHANGES, type WaysQuestion, waysOfStories } from './compare.ts'
export { costOfWay, type Prices, type Span, type WayCost } from './cost.ts'
export {
  type DehumidifierKind,
  type Machines,
  meansOfWay,
  shareOfRated,
  type WayMeans,
} from './means.ts'
export { balancedRhPercent, dryAirDensityKgM3, waterCarriedKgPerDay } from './room-air.ts'
export {
  isFound,
  type RoomFacts,
  type RoomPlan,
  type WayDates,
  type WayFound,
  type WayId,
  type WayLacking,
  type WaysFound,
  wayIds,
} from './shapes.ts'
