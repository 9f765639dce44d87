import { massBalance } from '#model/mix/index.ts'
import { entriesOf } from '#model/record/story.ts'
import type { Screed } from '#model/record/words.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'

/**
 * Density of the fresh screed as it lies, compacted [kg/m³]. A mass balance is asked to 12 %, and real screeds lie within
 * about 5 % of these.
 * @provenance common practice; the maker of a flowing or fast-drying screed gives its own
 */
export const freshDensityKgM3 = {
  'cement-sand': 2000,
  'calcium sulfate': 2050,
  'fast drying': 2000,
} as const satisfies Record<Screed, number>

/** What was mixed for a bay and delivered to it, against what its volume takes. */
export interface MassOfBay {
  deliveredKg: number
  expectedKg: number
  /** Negative when mass is missing [% of the expected]. */
  differencePercent: number
  areaM2: number
  meanMm: number
  /** Measured points, or the mean that was noted at the finish. */
  thicknessFrom: 'measured' | 'noted at the finish'
  densityKgM3: number
  entries: string[]
}

/**
 * Returns the mass balance of a bay, or in words what is missing for it. Batches are weighed on site; of deliveries only
 * ready-mixed screed counts, because sand and cement come back as batches.
 * @source mass = area · thickness · density
 * @provenance our judgement
 */
export function massOfBay({ story, areaM2, thickness, life }: BayFacts): MassOfBay | { missing: string } {
  const batches = entriesOf(story, 'batch-mixed')
  const loads = entriesOf(story, 'material-delivered').filter(
    ({ body }) => body.material === 'ready-mixed screed',
  )
  if (batches.length + loads.length === 0) return { missing: 'No batch and no load is recorded.' }
  const measured = thickness.map(({ mm }) => mm)
  const noted = life.finish?.body.meanThicknessMm
  const meanMm =
    measured.length > 0 ? measured.reduce((sum, mm) => sum + mm, 0) / measured.length : (noted ?? null)
  if (meanMm === null)
    return { missing: 'Nobody measured the thickness, so nobody can say what mass it takes.' }
  const ofBatches = batches.reduce(
    (sum, { body }) => sum + body.cementKg + body.dampSandKg + body.addedWaterKg + (body.admixtureKg ?? 0),
    0,
  )
  const deliveredKg = loads.reduce((sum, { body }) => sum + body.quantity, ofBatches)
  const densityKgM3 = freshDensityKgM3[story.bay.body.screed]
  const balance = massBalance({
    areaM2,
    meanThicknessMm: meanMm,
    freshDensityKgM3: densityKgM3,
    deliveredKg,
  })
  return {
    deliveredKg,
    ...balance,
    areaM2,
    meanMm,
    thicknessFrom: measured.length > 0 ? 'measured' : 'noted at the finish',
    densityKgM3,
    entries: [...new Set([...loads, ...batches].map(({ id }) => id as string))],
  }
}

/** "2750 kg for 3046 kg (22.4 m² × 68 mm × 2000 kg/m³): 9.7 % short". */
export function massText(mass: MassOfBay): string {
  const { deliveredKg, expectedKg, differencePercent, areaM2, meanMm, densityKgM3 } = mass
  const side = differencePercent < 0 ? 'short' : 'over'
  const difference = `${Math.abs(differencePercent).toFixed(1)} % ${side}`
  return `${deliveredKg.toFixed(0)} kg for ${expectedKg.toFixed(0)} kg (${areaM2.toFixed(1)} m² × ${meanMm.toFixed(0)} mm × ${densityKgM3} kg/m³): ${difference}`
}
