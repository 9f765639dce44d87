import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fillColumn, makeColumn, solveStep, waterKgM2 } from '#model/drying/column.ts'
import { materials, simulateDrying } from '#model/drying/index.ts'
import { tableOf } from '#model/drying/materials.ts'
import {
  capacityAt,
  conductivityAt,
  humidityOfWater,
  potentialAt,
  tabulate,
  waterAt,
} from '#model/drying/tables.ts'
import { exactHumidity, solvedHumidity } from '../../published/linear-slab.ts'
import { DAY_MS, LAID_MS, ordinaryRun } from './bay.ts'

const all = [materials.cementSandScreed, materials.denseConcrete, materials.calciumSulfateScreed]
const anyMaterial = fc.constantFrom(...all)
const anyRun = fc.record({
  material: anyMaterial,
  thicknessMm: fc.integer({ min: 10, max: 300 }),
  faces: fc.constantFrom(1 as const, 2 as const),
  climate: fc.record({
    airC: fc.integer({ min: -10, max: 45 }),
    rhPercent: fc.integer({ min: 1, max: 100 }),
    airSpeedMs: fc.double({ min: 0, max: 4, noNaN: true }),
  }),
  skinSdM: fc.constantFrom(0, 0.05, 0.5, 5, 50),
})

describe('DRY-1: the tables', () => {
  test.each(all)('capacity and conductivity are the slopes of water and potential: $name', (material) => {
    const table = tableOf(material)
    for (const h of [0.3, 0.55, 0.7512, 0.9, 0.985]) {
      const reach = 1e-6
      const slope = (of: typeof waterAt) => (of(table, h + reach) - of(table, h - reach)) / (2 * reach)
      expect(slope(waterAt) / capacityAt(table, h)).toBeCloseTo(1, 4)
      expect(slope(potentialAt) / conductivityAt(table, h)).toBeCloseTo(1, 4)
    }
  })
  test.each(all)('water of a humidity and humidity of that water agree: $name', (material) => {
    const table = tableOf(material)
    for (const h of [0.2, 0.5, 0.75, 0.95, 0.999])
      expect(humidityOfWater(table, waterAt(table, h))).toBeCloseTo(h, 10)
  })
  test('a table finer by two moves water by less than a thousandth', () => {
    const law = { waterKgM3: (h: number) => 120 * h ** 60, conductivity: () => 1e-7 }
    const coarse = waterAt(tabulate(law, 1024), 0.99)
    const fine = waterAt(tabulate(law, 8192), 0.99)
    expect(Math.abs(coarse / fine - 1)).toBeLessThan(1e-3)
  })
})

describe('DRY-15: age under the sheet', () => {
  test('a bay cured in the cold has more water still to bind, and evens out drier after the same drying', () => {
    const curedAt = (airC: number) =>
      simulateDrying(
        ordinaryRun({
          climate: Array.from({ length: 60 * 24 }, (_, i) => ({
            at: LAID_MS + i * (DAY_MS / 24),
            airC: i < 7 * 24 ? airC : 20,
            rhPercent: 60,
          })),
        }),
      ).rhMean.at(-1)!
    expect(curedAt(5)).toBeLessThan(curedAt(20) - 0.05)
  })
})

describe('DRY-2: exact series of Crank 1975 (from memory)', () => {
  const at = { biot: 5, days: 28, share: 0.4 }
  const error = (numerics: { cells: number; stepHours: number }) =>
    Math.abs(solvedHumidity({ ...at, ...numerics }) - exactHumidity(at))
  test('error falls with the square of cell width', () => {
    const coarse = error({ cells: 10, stepHours: 0.05 })
    const fine = error({ cells: 20, stepHours: 0.05 })
    expect(Math.log2(coarse / fine)).toBeGreaterThan(1.7)
    expect(Math.log2(coarse / fine)).toBeLessThan(2.4)
  })
  test('error falls in proportion to the step', () => {
    const early = { biot: 5, days: 7, share: 0.4 }
    const at160 = (stepHours: number) =>
      solvedHumidity({ ...early, cells: 160, stepHours }) - exactHumidity(early)
    const order = Math.log2(at160(4) / at160(2))
    expect(order).toBeGreaterThan(0.85)
    expect(order).toBeLessThan(1.2)
  })
  test('80 cells and a quarter of an hour are within 2e-4 after a week', () => {
    for (const days of [7, 28, 90]) {
      const look = { biot: 50, days, share: 0.4 }
      expect(
        Math.abs(solvedHumidity({ ...look, cells: 80, stepHours: 0.25 }) - exactHumidity(look)),
      ).toBeLessThan(2e-4)
    }
  })
})

describe('DRY-3: mass', () => {
  test('closes to 1e-9 kg/m² whatever the layer and the room', () => {
    fc.assert(
      fc.property(anyRun, (run) => {
        const result = simulateDrying(ordinaryRun(run))
        expect(Math.abs(result.balanceErrorKgPerM2)).toBeLessThan(1e-9)
      }),
      { numRuns: 40, seed: 3 },
    )
  })
  test('is conserved when both faces are sealed, while the profile evens out', () => {
    const table = tableOf(materials.cementSandScreed)
    const column = makeColumn(table, 0.065, 2, 30)
    fillColumn(column, 0.6, waterAt(table, 0.6))
    for (let i = 1; i <= 10; i++) {
      column.h[i] = 0.95
      column.water[i] = waterAt(table, 0.95)
    }
    const before = waterKgM2(column)
    column.gapFactor.set(column.inverseGap)
    const sealed = { pull: 0, push: 0 }
    for (let step = 0; step < 24 * 900; step++) {
      column.from.set(column.water)
      solveStep(column, 3600, sealed, sealed, 1e-10, 20)
    }
    expect(Math.abs(waterKgM2(column) - before)).toBeLessThan(1e-9)
    const even = humidityOfWater(table, before / 0.065)
    for (let i = 1; i <= 30; i++) expect(column.h[i]).toBeCloseTo(even, 3)
  })
  test('nothing leaves under the curing sheet', () => {
    const { evaporatedKgPerM2, rhAtFortyPercent } = simulateDrying(
      ordinaryRun({ endAt: LAID_MS + 7 * DAY_MS }),
    )
    expect(evaporatedKgPerM2.every((kg) => kg === 0)).toBe(true)
    expect(rhAtFortyPercent.at(-1)).toBeCloseTo(98, 9)
  })
  test('what the layer loses is what the mass percentage says', () => {
    const run = simulateDrying(ordinaryRun())
    const lost = ((run.massPercent[0]! - run.massPercent.at(-1)!) / 100) * 2000 * 0.065
    expect(lost).toBeCloseTo(run.evaporatedKgPerM2.at(-1)! + run.boundKgPerM2.at(-1)!, 9)
  })
})

describe('DRY-4: two faces', () => {
  test('a layer that dries from both is two half layers back to back', () => {
    const both = simulateDrying(ordinaryRun({ faces: 2, numerics: { cells: 80 } }))
    const half = simulateDrying(ordinaryRun({ thicknessMm: 32.5, numerics: { cells: 40 } }))
    // 20 % of the whole is 40 % of the half.
    both.rhAtFortyPercent.forEach((rh, i) => {
      expect(rh).toBeCloseTo(half.rhAtFortyPercent[i]!, 2)
    })
    expect(both.evaporatedKgPerM2.at(-1)).toBeCloseTo(2 * half.evaporatedKgPerM2.at(-1)!, 3)
  })
  test('the profile is the same from above and from below', () => {
    const { rhPercent } = simulateDrying(ordinaryRun({ faces: 2 })).profile(LAID_MS + 30 * DAY_MS)
    rhPercent.forEach((rh, i) => {
      expect(rh).toBeCloseTo(rhPercent[rhPercent.length - 1 - i]!, 6)
    })
  })
})

describe('DRY-5: limits and directions', () => {
  test('after a long time the layer is as dry as the room', () => {
    const run = simulateDrying(ordinaryRun({ thicknessMm: 20, endAt: LAID_MS + 3 * 365 * DAY_MS }))
    expect(run.rhAtFortyPercent.at(-1)).toBeCloseTo(60, 1)
  })
  test('warm damp air over a cold bay wets its face: driving force is vapour pressure', () => {
    const cold = simulateDrying(
      ordinaryRun({
        climate: { airC: 22, rhPercent: 70, screedC: 12 },
        startRhPercent: 80,
        endAt: LAID_MS + 30 * DAY_MS,
      }),
    )
    expect(cold.evaporatedKgPerM2.at(-1)).toBeLessThan(0)
    expect(cold.rhMean.at(-1)).toBeGreaterThan(80)
  })
  test('a thicker layer, a damper room and a colder room never dry sooner', () => {
    const daysTo = (change: Parameters<typeof ordinaryRun>[0]) =>
      simulateDrying(
        ordinaryRun({
          endAt: LAID_MS + 4000 * DAY_MS,
          stopAtRhPercent: 80,
          numerics: { stepHours: 6, cells: 20 },
          ...change,
        }),
      ).reachedAt ?? Number.POSITIVE_INFINITY
    fc.assert(
      fc.property(
        anyMaterial,
        fc.integer({ min: 25, max: 110 }),
        fc.integer({ min: 8, max: 28 }),
        fc.integer({ min: 30, max: 70 }),
        fc.integer({ min: 1, max: 15 }),
        (material, thicknessMm, airC, rhPercent, more) => {
          const climate = { airC, rhPercent }
          const base = daysTo({ material, thicknessMm, climate })
          expect(daysTo({ material, thicknessMm: thicknessMm + more, climate })).toBeGreaterThan(base)
          expect(
            daysTo({ material, thicknessMm, climate: { airC, rhPercent: rhPercent + 0.5 * more } }),
          ).toBeGreaterThan(base)
          // A colder cement screed also hydrates less under its sheet; compare like with like above 5 K.
          expect(
            daysTo({ material, thicknessMm, climate: { airC: airC - Math.max(5, more), rhPercent } }),
          ).toBeGreaterThan(base)
        },
      ),
      { numRuns: 12, seed: 5 },
    )
  }, 60_000)
  test('humidity at depth never rises in a constant room and no number is lost', () => {
    fc.assert(
      fc.property(anyRun, (run) => {
        const { rhAtFortyPercent, massPercent, rhMean } = simulateDrying(
          ordinaryRun({
            ...run,
            climate: { ...run.climate, rhPercent: Math.min(70, run.climate.rhPercent) },
          }),
        )
        for (const list of [rhAtFortyPercent, massPercent, rhMean]) {
          // The cubic through four nodes may overshoot a flat profile by less than a thousandth of a per cent.
          list.forEach((value, i) => {
            expect(Number.isFinite(value)).toBe(true)
            if (i > 0) expect(value).toBeLessThanOrEqual(list[i - 1]! + 1e-3)
          })
        }
      }),
      { numRuns: 40, seed: 8 },
    )
  })
  test('a fan hardly helps: a bare face is not what holds the water back', () => {
    const reached = (airSpeedMs: number) =>
      simulateDrying(
        ordinaryRun({
          climate: { airC: 20, rhPercent: 60, airSpeedMs },
          endAt: LAID_MS + 200 * DAY_MS,
          stopAtRhPercent: 75,
        }),
      ).reachedAt!
    expect((reached(0) - reached(2)) / DAY_MS).toBeLessThan(1)
    expect(reached(2)).toBeLessThan(reached(0))
  })
})

describe('DRY-6: time', () => {
  test('instants with another offset are the same instants', () => {
    const utc = simulateDrying(
      ordinaryRun({
        startAt: '2026-03-28T07:00:00Z',
        sealedUntil: '2026-04-04T07:00:00Z',
        endAt: '2026-05-04T07:00:00Z',
      }),
    )
    const other = simulateDrying(
      ordinaryRun({
        startAt: '2026-03-28T17:30:00+10:30',
        sealedUntil: '2026-04-04T03:00:00-04:00',
        endAt: '2026-05-04T08:00:00+01:00',
      }),
    )
    expect(other.at).toEqual(utc.at)
    expect(other.rhAtFortyPercent).toEqual(utc.rhAtFortyPercent)
  })
  test('the zone of the machine does not matter', () => {
    const before = process.env.TZ
    const run = () =>
      simulateDrying(
        ordinaryRun({
          climate: [
            { at: '2026-01-05T08:00:00+00:00', airC: 18, rhPercent: 65 },
            { at: '2026-01-05T20:00:00+01:00', airC: 21, rhPercent: 55 },
          ],
        }),
      ).rhAtFortyPercent
    try {
      process.env.TZ = 'Pacific/Auckland'
      const far = run()
      process.env.TZ = 'America/St_Johns'
      expect(run()).toEqual(far)
    } finally {
      if (before === undefined) delete process.env.TZ
      else process.env.TZ = before
    }
  })
  test('hourly and daily outputs are of one run', () => {
    const daily = simulateDrying(ordinaryRun({ endAt: LAID_MS + 20 * DAY_MS }))
    const hourly = simulateDrying(ordinaryRun({ endAt: LAID_MS + 20 * DAY_MS, outputEvery: 'hour' }))
    expect(hourly.at.length).toBe(20 * 24 + 1)
    daily.rhAtFortyPercent.forEach((rh, i) => {
      expect(rh).toBeCloseTo(hourly.rhAtFortyPercent[i * 24]!, 10)
    })
  })
})
