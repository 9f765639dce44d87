export { roundStep, type ValueScale, valueScale } from '#model/chart/value-ticks.ts'
