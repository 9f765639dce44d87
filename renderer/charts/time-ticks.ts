export { type TimeTick, timeTicks } from '#model/chart/time-ticks.ts'
