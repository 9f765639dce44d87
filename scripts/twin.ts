import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads'
import { forecastDates } from '#model/drying/forecast/forecast.ts'
import type { FactorPrior } from '#model/drying/forecast/pool.ts'
import {
  type ClimateSample,
  daysByRule,
  type ForecastInput,
  type Material,
  type MoistureReading,
  materials,
  modelCodeShape,
  simulateDrying,
  withConstants,
} from '#model/drying/index.ts'
import { dayMs, hourMs } from '#model/time.ts'

/**
 * Scores the forecast on made-up bays whose truth comes from a model with other physics:
 * the shape of CEB-FIP MC90, another isotherm for each bay, a room that does not keep to what was assumed.
 * Run with `node scripts/twin.ts [bays] [seed]`. It says how well the method copes with being wrong in these ways;
 * it says nothing about real screeds.
 */

const LAID_MS = Date.parse('2026-01-05T12:00:00Z')
const CURED_DAYS = 7
const READING_DAYS = [15, 22, 30, 38, 45]
const AS_OF_DAY = 46
const HORIZON_DAYS = 730
const LIMIT = {
  value: 75,
  unit: '% RH',
  operator: '<=',
  source: 'BS 8203',
  provenance: 'quoted second-hand',
} as const
/** With what the other isotherms and shapes add (0.24), drying times spread by 0.45 in ln, as the forecast believes. */
const KAPPA_SD = 0.38
export const READING_COUNTS = [0, 1, 3, 5]

/** Mulberry32: a small seeded generator, so that a run can be repeated. */
function dice(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = state
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

export interface TrueBay {
  thicknessMm: number
  past: ClimateSample[]
  typical: { airC: number; rhPercent: number }
  readings: MoistureReading[]
  /** Days from laying; the horizon when it was never reached. */
  truthDays: number
}

/** A mix that several bays share: its seed, and how much bays of it differ in ln(diffusivity factor). */
export interface TrueMix {
  seed: number
  spread: number
}

/**
 * A bay of the other model, with readings of 2 % RH. Bays of one mix share shape, isotherm and middle factor;
 * without a mix each is of its own.
 */
export function growBay(seed: number, mix: TrueMix | null = null): TrueBay {
  const random = dice(seed)
  const ofMix = mix === null ? random : dice(mix.seed)
  const thicknessMm = [50, 65, 75][Math.floor(random() * 3)]!
  const other = (value: number, spread: number) => value * Math.exp(spread * normal(ofMix))
  const base = materials.cementSandScreed.constants
  const kappa = Math.exp(KAPPA_SD * normal(ofMix) + (mix === null ? 0 : mix.spread * normal(random)))
  const made = (name: keyof typeof base, value: number) => ({
    [name]: { ...base[name], value, source: 'made up for scoring', provenance: 'our judgement' as const },
  })
  const truth: Material = withConstants(materials.cementSandScreed, {
    ...modelCodeShape,
    ...made('conductivityAtSaturation', 2.69e-7 * kappa),
    ...made('conductivityHc', 0.8 + 0.02 * normal(ofMix)),
    ...made('monolayerKgM3', other(base.monolayerKgM3.value, 0.15)),
    ...made('capillaryKgM3', other(60, 0.3)),
    ...made('capillaryExponent', other(32, 0.25)),
    ...made('selfDesiccationDrop', Math.max(0, 0.03 + 0.015 * normal(random))),
  })
  const typical = { airC: 20 + 2 * normal(random), rhPercent: 58 + 4 * normal(random) }
  const actualC = typical.airC + 2 * normal(random)
  const actualRh = Math.min(85, Math.max(30, typical.rhPercent + 4 * normal(random)))
  const phase = random() * 9
  const air = (day: number): { airC: number; rhPercent: number } => {
    const mean = day < AS_OF_DAY ? typical : { airC: actualC, rhPercent: actualRh }
    const swing = Math.sin(2 * Math.PI * day)
    return {
      airC: mean.airC + 1.5 * swing + 1.5 * Math.sin((2 * Math.PI * (day + phase)) / 9),
      rhPercent: mean.rhPercent - 3 * swing + 6 * Math.cos((2 * Math.PI * (day + phase)) / 9),
    }
  }
  const hours = HORIZON_DAYS * 24
  const climate = Array.from(
    { length: hours },
    (_, i): ClimateSample => ({ at: LAID_MS + i * hourMs, ...air(i / 24) }),
  )
  const run = simulateDrying({
    material: truth,
    thicknessMm,
    faces: 1,
    climate,
    startAt: LAID_MS,
    sealedUntil: LAID_MS + CURED_DAYS * dayMs,
    endAt: LAID_MS + HORIZON_DAYS * dayMs,
    startRhPercent: Math.min(99.5, 98 + 0.7 * normal(random)),
    outputEvery: 'day',
    numerics: { stepHours: 2 },
    stopAtRhPercent: LIMIT.value,
  })
  const readings = READING_DAYS.map((day): MoistureReading => {
    // A bay that is dry before the day is read at what it stopped at: it would be read once more to make sure.
    const rh = run.rhAtFortyPercent[Math.min(day, run.rhAtFortyPercent.length - 1)]!
    return { at: LAID_MS + day * dayMs, method: 'probe', value: Math.min(99.9, rh + 2 * normal(random)) }
  })
  return {
    thicknessMm,
    past: climate.slice(0, AS_OF_DAY * 24),
    typical,
    readings,
    truthDays: run.reachedAt === null ? HORIZON_DAYS : (run.reachedAt - LAID_MS) / dayMs,
  }
}

export interface TwinScore {
  truthDays: number
  ruleDays: number
  /** By number of readings: the 10, 50 and 90 % days, and the continuous ranked probability score. */
  forecasts: { p10: number; p50: number; p90: number; crps: number; pit: number }[]
}

/** Scores one made-up bay with 0, 1, 3 and 5 of its readings, all on the same day. */
export function scoreBay(seed: number): TwinScore {
  return scoreGrown(growBay(seed))
}

/** What a site would ask about a made-up bay after so many readings. */
export function questionOf(bay: TrueBay, readings: number): ForecastInput {
  return {
    material: materials.cementSandScreed,
    thicknessMm: bay.thicknessMm,
    faces: 1,
    pastClimate: bay.past,
    futureClimate: bay.typical,
    curing: { laidAt: LAID_MS, sealedUntil: LAID_MS + CURED_DAYS * dayMs },
    // The last readings are the ones a site would have if it took fewer.
    readings: readings === 0 ? [] : bay.readings.slice(-readings),
    limit: LIMIT,
    asOf: LAID_MS + AS_OF_DAY * dayMs,
  }
}

export function scoreGrown(
  bay: TrueBay,
  counts: readonly number[] = READING_COUNTS,
  prior?: FactorPrior,
): TwinScore {
  const forecasts = counts.map((count) => {
    const dates = forecastDates({ ...questionOf(bay, count), ...(prior !== undefined && { prior }) })
    if ('missing' in dates) throw new Error(dates.missing.join(' '))
    const { quantileMs } = dates
    const days = (p: number) =>
      Math.min(HORIZON_DAYS, ((quantileMs(p) ?? Number.POSITIVE_INFINITY) - LAID_MS) / dayMs)
    return { p10: days(0.1), p50: days(0.5), p90: days(0.9), ...rank(days, bay.truthDays) }
  })
  return {
    truthDays: bay.truthDays,
    ruleDays: CURED_DAYS + daysByRule({ thicknessMm: bay.thicknessMm, breakMm: 50 }),
    forecasts,
  }
}

/** CRPS as twice the mean pinball loss over 99 quantiles, and where the truth falls among them. */
function rank(days: (p: number) => number, truth: number): { crps: number; pit: number } {
  let loss = 0
  let below = 0
  for (let i = 1; i <= 99; i++) {
    const p = i / 100
    const x = days(p)
    if (x < truth) below++
    loss += truth >= x ? p * (truth - x) : (1 - p) * (x - truth)
  }
  return { crps: (2 * loss) / 99, pit: below / 99 }
}

export interface TwinSummary {
  bays: number
  ruleMae: number
  rows: {
    readings: number
    coverage: number
    early: number
    late: number
    width: number
    mae: number
    crps: number
    pit: number[]
  }[]
}

export function summarise(
  scores: readonly TwinScore[],
  counts: readonly number[] = READING_COUNTS,
): TwinSummary {
  const mean = (of: (score: TwinScore) => number) =>
    scores.reduce((sum, score) => sum + of(score), 0) / scores.length
  return {
    bays: scores.length,
    ruleMae: mean((score) => Math.abs(score.ruleDays - score.truthDays)),
    rows: counts.map((readings, k) => {
      const share = (when: (score: TwinScore, forecast: TwinScore['forecasts'][number]) => boolean) =>
        mean((score) => (when(score, score.forecasts[k]!) ? 1 : 0))
      return {
        readings,
        coverage: share((score, f) => score.truthDays >= f.p10 && score.truthDays <= f.p90),
        early: share((score, f) => score.truthDays < f.p10),
        late: share((score, f) => score.truthDays > f.p90),
        width: mean((score) => score.forecasts[k]!.p90 - score.forecasts[k]!.p10),
        mae: mean((score) => Math.abs(score.forecasts[k]!.p50 - score.truthDays)),
        crps: mean((score) => score.forecasts[k]!.crps),
        pit: Array.from(
          { length: 10 },
          (_, bin) =>
            scores.filter((score) => Math.min(9, Math.floor(score.forecasts[k]!.pit * 10)) === bin).length,
        ),
      }
    }),
  }
}

async function main(): Promise<void> {
  const bays = Number(process.argv[2] ?? 240)
  const firstSeed = Number(process.argv[3] ?? 1)
  const workers = Math.min(2, availableParallelism())
  const parts = await Promise.all(
    Array.from({ length: workers }, (_, w) => {
      const seeds = Array.from({ length: bays }, (_, i) => firstSeed + i).filter(
        (seed) => seed % workers === w,
      )
      return new Promise<TwinScore[]>((resolve, reject) => {
        const worker = new Worker(fileURLToPath(import.meta.url), { workerData: { seeds } })
        worker.once('message', resolve)
        worker.once('error', reject)
      })
    }),
  )
  const { ruleMae, rows } = summarise(parts.flat())
  console.log(
    `${bays} made-up bays, seed ${firstSeed}; one day a millimetre to 50 mm, then two: mean miss ${ruleMae.toFixed(1)} d\n`,
  )
  console.log(
    '| readings | 80 % range holds | earlier | later | mean width | mean miss of P50 | CRPS | where truths fall, by tenths |',
  )
  console.log('|---|---|---|---|---|---|---|---|')
  for (const row of rows) {
    const percent = (share: number) => `${(100 * share).toFixed(0)} %`
    console.log(
      `| ${row.readings} | ${percent(row.coverage)} | ${percent(row.early)} | ${percent(row.late)} | ${row.width.toFixed(0)} d | ${row.mae.toFixed(1)} d | ${row.crps.toFixed(1)} d | ${row.pit.join(' ')} |`,
    )
  }
}

if (!isMainThread) {
  const seeds = (workerData as { seeds?: number[] } | null)?.seeds
  // Imported by a test's worker there is nothing to do: only the script hands seeds over.
  if (seeds !== undefined) parentPort?.postMessage(seeds.map(scoreBay))
} else if (process.argv[1] === fileURLToPath(import.meta.url)) await main()
