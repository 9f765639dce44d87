import { describe, expect, test } from 'vitest'
import { hourlyClimate } from '#model/drying/climate.ts'
import {
  boxReading,
  type ClimateSample,
  daysByRule,
  forecastReady,
  materials,
  simulateDrying,
} from '#model/drying/index.ts'
import { InputError } from '#model/errors.ts'
import { DAY_MS, HOUR_MS, LAID_MS, ordinaryForecast, ordinaryRun, probe } from './bay.ts'

const fieldOf = (call: () => unknown): string => {
  try {
    call()
  } catch (error) {
    if (error instanceof InputError) return error.field
    throw error
  }
  return 'accepted'
}
const bad = <T>(value: unknown): T => value as T

describe('DRY-8: what no calculation can use is refused with the name of its field', () => {
  test.each([
    ['thicknessMm', { thicknessMm: Number.NaN }],
    ['thicknessMm', { thicknessMm: 5 }],
    ['faces', { faces: bad<1>(3) }],
    ['material', { material: bad<typeof materials.denseConcrete>(undefined) }],
    ['startAt', { startAt: '2026-01-05' }],
    ['sealedUntil', { sealedUntil: LAID_MS - 1 }],
    ['endAt', { endAt: LAID_MS }],
    ['endAt', { endAt: LAID_MS + 30 * 366 * DAY_MS }],
    ['skinSdM', { skinSdM: -1 }],
    ['stopAtRhPercent', { stopAtRhPercent: 0.75 }],
    ['outputEvery', { outputEvery: bad<'day'>('week') }],
    ['climate.rhPercent', { climate: { airC: 20, rhPercent: 0.6 } }],
    ['climate.airC', { climate: { airC: Number.POSITIVE_INFINITY, rhPercent: 60 } }],
    [
      'climate[1].rhPercent',
      {
        climate: [
          { at: LAID_MS, airC: 20, rhPercent: 60 },
          { at: LAID_MS + 1, airC: 20, rhPercent: 101 },
        ],
      },
    ],
    [
      'climate',
      {
        climate: [
          { at: LAID_MS, airC: 20, rhPercent: 60 },
          { at: LAID_MS - 1, airC: 20, rhPercent: 60 },
        ],
      },
    ],
    ['climate.length', { climate: [] }],
    ['diffusivityFactor', { diffusivityFactor: 0 }],
  ])('simulateDrying: %s', (field, change) => {
    expect(fieldOf(() => simulateDrying(ordinaryRun(change)))).toBe(field)
  })
  test.each([
    ['readings[0].value', { readings: [probe(20, 0.91, {})] }],
    ['readings[0].value', { readings: [probe(20, Number.NaN)] }],
    ['readings[0].method', { readings: [probe(20, 90, { method: bad<'probe'>('finger') })] }],
    ['readings[0].depthMm', { readings: [probe(20, 90, { depthMm: 80 })] }],
    ['readings[0].sd', { readings: [probe(20, 90, { sd: 0 })] }],
    ['readings[0].toMm', { readings: [probe(20, 3, { method: 'carbide' as const, fromMm: 30, toMm: 20 })] }],
    ['curing.sealedUntil', { curing: { laidAt: LAID_MS, sealedUntil: LAID_MS - DAY_MS } }],
    ['asOf', { asOf: 'tomorrow' }],
    ['prior.lnKappaSd', { prior: { lnKappaMean: 0, lnKappaSd: 0 } }],
    ['limit.value', { limit: { ...ordinaryForecast().limit, value: 0.75 } }],
    ['futureClimate.meanOfRecentDays', { futureClimate: { meanOfRecentDays: 0 } }],
  ])('forecastReady: %s', (field, change) => {
    expect(fieldOf(() => forecastReady(ordinaryForecast(change)))).toBe(field)
  })
  test('the small calculations', () => {
    expect(fieldOf(() => daysByRule({ thicknessMm: 65, breakMm: bad<40>(45) }))).toBe('breakMm')
    expect(fieldOf(() => daysByRule({ thicknessMm: 0, breakMm: 40 }))).toBe('thicknessMm')
    const state = simulateDrying(ordinaryRun()).state(LAID_MS + 30 * DAY_MS)
    expect(fieldOf(() => boxReading({ state, hours: -1 }))).toBe('hours')
    expect(fieldOf(() => simulateDrying(ordinaryRun()).profile(LAID_MS + 90 * DAY_MS))).toBe('at')
  })
  test('a fast-drying screed needs the maker’s figures and their source', () => {
    const maker = {
      name: 'Made-up fast screed',
      source: 'data sheet of an invented maker, 2026',
      diffusivityFactor: 3,
      startRhPercent: 92,
      selfDesiccationDrop: 0.1,
      densityKgM3: 2050,
      sealedDays: 1,
    }
    expect(fieldOf(() => materials.fastDryingScreed({ ...maker, source: ' ' }))).toBe('source')
    expect(fieldOf(() => materials.fastDryingScreed({ ...maker, diffusivityFactor: 0 }))).toBe(
      'diffusivityFactor',
    )
    const made = materials.fastDryingScreed(maker)
    expect(made.constants.startRhPercent).toMatchObject({
      value: 92,
      source: maker.source,
      provenance: 'company rule',
    })
    const reached = (material: typeof made) =>
      simulateDrying(ordinaryRun({ material, endAt: LAID_MS + 300 * DAY_MS, stopAtRhPercent: 75 })).reachedAt!
    expect(reached(made)).toBeLessThan(reached(materials.cementSandScreed))
  })
  test('every constant of every material says its unit, its source and how well it is known', () => {
    for (const material of [
      materials.cementSandScreed,
      materials.denseConcrete,
      materials.calciumSulfateScreed,
    ]) {
      for (const [name, constant] of Object.entries(material.constants)) {
        expect(Number.isFinite(constant.value), name).toBe(true)
        expect(constant.source.length, name).toBeGreaterThan(5)
        expect(constant.provenance, name).not.toBe('published')
      }
    }
  })
})

describe('DRY-9: gaps in the room climate', () => {
  const hourly = (from: number, to: number, airC: number): ClimateSample[] =>
    Array.from({ length: to - from }, (_, i) => ({ at: LAID_MS + (from + i) * HOUR_MS, airC, rhPercent: 60 }))
  test('two readings a day are joined by straight lines and are no gap', () => {
    const twice = Array.from({ length: 10 }, (_, i) =>
      [7, 15].map((hour) => ({
        at: LAID_MS + i * DAY_MS + (hour - 7) * HOUR_MS,
        airC: hour === 7 ? 10 : 18,
        rhPercent: 60,
      })),
    ).flat()
    const climate = hourlyClimate(twice, LAID_MS, LAID_MS + 9 * DAY_MS)
    expect(climate.gaps).toEqual([])
    expect(climate.airC[4]).toBeCloseTo(14.5, 6)
  })
  test('a longer silence takes the mean of the days beside it and is reported', () => {
    const climate = hourlyClimate(
      [...hourly(0, 96, 10), ...hourly(192, 288, 20)],
      LAID_MS,
      LAID_MS + 12 * DAY_MS,
    )
    expect(climate.gaps).toHaveLength(1)
    expect(climate.gaps[0]!.hours).toBeCloseTo(97, 6)
    expect(climate.airC[140]).toBeCloseTo(15, 1)
    expect(climate.gaps[0]!.assumed).toContain('within three days')
  })
  test('silence at the end is reported too', () => {
    const climate = hourlyClimate(hourly(0, 48, 12), LAID_MS, LAID_MS + 10 * DAY_MS)
    expect(climate.gaps).toHaveLength(1)
    expect(climate.airC.at(-1)).toBeCloseTo(12, 6)
  })
  test('several readings within an hour are averaged', () => {
    const minutes = Array.from({ length: 180 }, (_, i) => ({
      at: LAID_MS + i * 60_000,
      airC: i % 60 < 30 ? 10 : 20,
      rhPercent: 50,
    }))
    const climate = hourlyClimate(minutes, LAID_MS, LAID_MS + 2 * HOUR_MS)
    expect(climate.airC[0]).toBeCloseTo(15, 6)
  })
})
