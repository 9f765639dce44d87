import { dayMs } from '#model/time.ts'
import { requireInstant, requireNumber } from '../errors.ts'
import type { Why } from '../why.ts'
import { type Climate, isSeries } from './climate.ts'
import type { Material } from './materials.ts'
import { simulateDrying } from './simulate.ts'

/** A fresh layer holds water above the start of the model; it leaves in the first days. */
const FRESH_ALLOWANCE = 1.3

export interface DryingLoadInput {
  areaM2: number
  material: Material
  thicknessMm: number
  faces: 1 | 2
  climate: Climate
  skinSdM?: number
  /** Days of drying to count, from the end of curing. */
  days: number
}

export interface DryingLoad {
  /** Water given off on each day of drying, day 1 first [kg]. */
  kgPerDay: number[]
  totalKg: number
  meanKgPerDay: number
  /** For ordering equipment: the larger of days 2 and 3, plus 30 % for fresh water the model leaves out [kg/day]. */
  sizingKgPerDay: number
  why: Why[]
}

/**
 * Returns the water that drying bays give to the room, day by day.
 * From `simulateDrying`, times the area. Other wet trades and damp air that leaks in come on top.
 * @param input area [m²], layer, room climate and days (1–1000); a climate series starts at the end of curing
 * @errors InputError naming the field
 * @source water balance of the drying model
 * @provenance our judgement
 */
export function dryingLoad(input: DryingLoadInput): DryingLoad {
  const areaM2 = requireNumber('areaM2', input.areaM2, 0.01, 1e6, 'm²')
  const days = Math.round(requireNumber('days', input.days, 1, 1000, 'days'))
  const first = isSeries(input.climate) ? input.climate[0]?.at : 0
  const startMs = requireInstant('climate[0].at', first)
  // The bay comes to drying at the age its curing gave it: a young one would bind more of its water.
  const curedDays = Math.round(input.material.constants.sealedDays.value)
  const run = simulateDrying({
    ...input,
    startAt: startMs - curedDays * dayMs,
    sealedUntil: startMs,
    endAt: startMs + days * dayMs,
    outputEvery: 'day',
  })
  const evaporatedKgPerM2 = run.evaporatedKgPerM2.slice(curedDays)
  const kgPerDay = evaporatedKgPerM2.slice(1).map((sum, i) => (sum - evaporatedKgPerM2[i]!) * areaM2)
  const totalKg = evaporatedKgPerM2.at(-1)! * areaM2
  const sizingKgPerDay = FRESH_ALLOWANCE * Math.max(kgPerDay[1] ?? kgPerDay[0]!, kgPerDay[2] ?? 0)
  return {
    kgPerDay,
    totalKg,
    meanKgPerDay: totalKg / days,
    sizingKgPerDay,
    why: [
      {
        what: 'water to remove each day, for ordering equipment',
        value: sizingKgPerDay,
        unit: 'kg/day',
        inputs: [
          { name: 'area', value: areaM2, unit: 'm²' },
          { name: 'thickness', value: input.thicknessMm, unit: 'mm' },
          { name: 'material', value: input.material.name, unit: '' },
        ],
        formula: 'the larger of days 2 and 3 × area × 1.3',
        source: 'drying model; 30 % for water above the start of the model',
        provenance: 'our judgement',
      },
    ],
  }
}
