import { type DryingInput, type ForecastInput, type MoistureReading, materials } from '#model/drying/index.ts'

/** What the tests of drying share: one ordinary bay, 65 mm of cement-sand screed in a room at 20 °C and 60 %. */

export const DAY_MS = 86_400_000
export const HOUR_MS = 3_600_000
export const LAID_MS = Date.parse('2026-01-05T08:00:00Z')
export const DRY_MS = LAID_MS + 7 * DAY_MS
export const limit75 = {
  value: 75,
  unit: '% RH',
  operator: '<=',
  source: 'BS 8203',
  provenance: 'quoted second-hand',
} as const

export const ordinaryRun = (change: Partial<DryingInput> = {}): DryingInput => ({
  material: materials.cementSandScreed,
  thicknessMm: 65,
  faces: 1,
  climate: { airC: 20, rhPercent: 60 },
  startAt: LAID_MS,
  sealedUntil: DRY_MS,
  endAt: LAID_MS + 60 * DAY_MS,
  outputEvery: 'day',
  ...change,
})

export const ordinaryForecast = (change: Partial<ForecastInput> = {}): ForecastInput => ({
  material: materials.cementSandScreed,
  thicknessMm: 65,
  faces: 1,
  pastClimate: { airC: 20, rhPercent: 60 },
  futureClimate: { airC: 20, rhPercent: 60 },
  curing: { laidAt: LAID_MS, sealedUntil: DRY_MS },
  readings: [],
  limit: limit75,
  asOf: LAID_MS + 40 * DAY_MS,
  ...change,
})

export const probe = (
  day: number,
  value: number,
  change: Partial<MoistureReading> = {},
): MoistureReading => ({
  id: `day ${day}`,
  at: LAID_MS + day * DAY_MS,
  method: 'probe',
  value,
  ...change,
})

/** Days from laying of an ISO date; NaN for null, so that no comparison passes. */
export const dayOf = (iso: string | null): number =>
  iso === null ? Number.NaN : (Date.parse(iso) - LAID_MS) / DAY_MS
