import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { forecastDates } from '#model/drying/forecast/forecast.ts'
import {
  type ForecastInput,
  forecastReady,
  type MoistureReading,
  materials,
  simulateDrying,
} from '#model/drying/index.ts'
import { runOneByOne } from '../reference/one-by-one.ts'
import { type Measured, median } from './measure.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS
const LAID_MS = Date.parse('2026-01-05T08:00:00Z')
const REPEATS = 7
const PYTHON = '/usr/bin/python3'

const forecastGoalMs = 300
const speedUpGoal = 20
const agreementGoalDays = 0.5
const yearGoalMs = 160

/** 65 mm, five readings, 60 days of hourly climate. */
function bay(): ForecastInput {
  const readings = (
    [
      [22, 92.6],
      [29, 90],
      [37, 87.5],
      [45, 86.2],
      [52, 84.6],
    ] as const
  ).map(([day, value]): MoistureReading => ({ at: LAID_MS + day * DAY_MS, method: 'probe', value }))
  const pastClimate = Array.from({ length: 60 * 24 }, (_, i) => ({
    at: LAID_MS + i * HOUR_MS,
    airC: 17 + 2 * Math.sin(i / 216) + 3 * Math.sin((i * Math.PI) / 12),
    rhPercent: 62 + 8 * Math.sin((i * Math.PI) / 108) - 6 * Math.sin((i * Math.PI) / 12),
  }))
  return {
    material: materials.cementSandScreed,
    thicknessMm: 65,
    faces: 1,
    pastClimate,
    futureClimate: { airC: 20, rhPercent: 60 },
    curing: { laidAt: LAID_MS, sealedUntil: LAID_MS + 7 * DAY_MS },
    readings,
    limit: { value: 75, unit: '% RH', operator: '<=', source: 'BS 8203', provenance: 'quoted second-hand' },
    asOf: LAID_MS + 60 * DAY_MS,
  }
}

function timed<Result>(call: () => Result): { ms: number; result: Result } {
  const startedAt = performance.now()
  const result = call()
  return { ms: performance.now() - startedAt, result }
}

/** Returns how long scipy needs for a simulated year [ms], its start included; null without scipy. */
function scipyYearMs(): number | null {
  if (!existsSync(PYTHON)) return null
  const script = fileURLToPath(new URL('../reference/drying_bdf.py', import.meta.url))
  try {
    const startedAt = performance.now()
    execFileSync(PYTHON, [script, '--one'], { stdio: ['ignore', 'pipe', 'ignore'], timeout: 300_000 })
    return performance.now() - startedAt
  } catch (error) {
    console.log(
      `scipy could not be run: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`,
    )
    return null
  }
}

export default async function drying(): Promise<Measured[]> {
  const input = bay()
  for (let i = 0; i < 3; i++) forecastReady(input)
  const forecasts = Array.from({ length: REPEATS }, () => timed(() => forecastReady(input)).ms)
  const quick = Array.from({ length: REPEATS }, () => timed(() => forecastDates(input)))
  const plain = timed(() => forecastDates(input, runOneByOne))
  const dates = quick[0]!.result
  const plainDates = plain.result
  if ('missing' in dates || 'missing' in plainDates)
    throw new Error('The bay of the bench could not be forecast.')
  const apart = Math.max(
    ...[0.1, 0.5, 0.9].map((p) => Math.abs(dates.quantileMs(p)! - plainDates.quantileMs(p)!) / DAY_MS),
  )
  const quickMs = median(quick.map(({ ms }) => ms))

  const year = () =>
    timed(() =>
      simulateDrying({
        material: materials.cementSandScreed,
        thicknessMm: 65,
        faces: 1,
        climate: { airC: 20, rhPercent: 60 },
        startAt: LAID_MS,
        sealedUntil: LAID_MS,
        endAt: LAID_MS + 365 * DAY_MS,
        outputEvery: 'day',
      }),
    ).ms
  year()
  const yearMs = median(Array.from({ length: REPEATS }, year))
  const scipyMs = scipyYearMs()
  const forecastMs = median(forecasts)
  return [
    {
      name: 'forecast of a bay: 525 runs, five readings, 60 days of hours',
      measured: forecastMs,
      unit: 'ms',
      yardstick: null,
      ratio: null,
      goal: `≤ ${forecastGoalMs} ms`,
      met: forecastMs <= forecastGoalMs,
    },
    {
      name: 'its dates, against the same runs one by one at 40 cells and one hour',
      measured: quickMs,
      unit: 'ms',
      yardstick: plain.ms,
      ratio: plain.ms / quickMs,
      goal: `≥ ${speedUpGoal} times faster`,
      met: plain.ms / quickMs >= speedUpGoal,
    },
    {
      name: 'largest difference of the 10, 50 and 90 % dates from those',
      measured: apart,
      unit: 'days',
      yardstick: null,
      ratio: null,
      goal: `≤ ${agreementGoalDays} day`,
      met: apart <= agreementGoalDays,
    },
    {
      name: 'a simulated year, 40 cells and one hour, against scipy BDF',
      measured: yearMs,
      unit: 'ms',
      yardstick: scipyMs,
      ratio: scipyMs === null ? null : scipyMs / yearMs,
      goal: `≤ ${yearGoalMs} ms`,
      met: yearMs <= yearGoalMs,
    },
  ]
}
