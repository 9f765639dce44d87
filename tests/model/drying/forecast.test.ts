import { describe, expect, test } from 'vitest'
import { forecastDates } from '#model/drying/forecast/forecast.ts'
import { type ClimateSample, forecastReady, materials, simulateDrying } from '#model/drying/index.ts'
import { runOneByOne } from '#scripts/reference/one-by-one.ts'
import {
  DAY_MS,
  DRY_MS,
  dayOf,
  HOUR_MS,
  LAID_MS,
  limit75,
  ordinaryForecast,
  ordinaryRun,
  probe,
} from './bay.ts'

/** Days 0–60: seasons, weather of nine days, day and night. */
const weather = (days: number): ClimateSample[] =>
  Array.from({ length: days * 24 }, (_, i) => ({
    at: LAID_MS + i * HOUR_MS,
    airC: 17 + 2 * Math.sin(i / 216) + 3 * Math.sin((i * Math.PI) / 12),
    rhPercent: 62 + 8 * Math.sin((i * Math.PI) / 108) - 6 * Math.sin((i * Math.PI) / 12),
  }))
const reading = (day: number, factor: number, error = 0) => {
  const run = simulateDrying(ordinaryRun({ diffusivityFactor: factor, endAt: LAID_MS + (day + 1) * DAY_MS }))
  return probe(day, run.rhAtFortyPercent[day]! + error)
}
const width = ({ p10, p90 }: { p10: string | null; p90: string | null }) => dayOf(p90) - dayOf(p10)

describe('DRY-10: what a forecast is', () => {
  test('without readings it is the range of the material, around the day the model gives', () => {
    const forecast = forecastReady(ordinaryForecast())
    const middle =
      (simulateDrying(ordinaryRun({ endAt: LAID_MS + 300 * DAY_MS, stopAtRhPercent: 75 })).reachedAt! -
        LAID_MS) /
      DAY_MS
    expect(Math.abs(dayOf(forecast.p50) - middle)).toBeLessThan(4)
    expect(dayOf(forecast.p10)).toBeLessThan(dayOf(forecast.p50))
    expect(dayOf(forecast.p90)).toBeGreaterThan(dayOf(forecast.p50))
    expect(forecast.learned).toBeNull()
    expect(forecast.readingsCheck).toEqual([])
    expect(forecast.assumptions.join(' ')).toContain('No usable moisture reading')
  })
  test('is the same each time, whatever the seed', () => {
    const once = forecastReady(ordinaryForecast({ readings: [reading(30, 0.8)], seed: 1 }))
    expect(forecastReady(ordinaryForecast({ readings: [reading(30, 0.8)], seed: 99 }))).toEqual(once)
  })
  test('is plain JSON', () => {
    const forecast = forecastReady(ordinaryForecast({ readings: [reading(30, 1)] }))
    expect(JSON.parse(JSON.stringify(forecast))).toEqual(forecast)
  })
  test('each date says what it came from', () => {
    const { why, p50 } = forecastReady(ordinaryForecast({ readings: [reading(30, 1)] }))
    expect(why).toHaveLength(4)
    expect(why[1]!.value).toBe(p50)
    for (const one of why) {
      expect(one.source.length).toBeGreaterThan(10)
      expect(one.provenance).toBe('our judgement')
    }
    expect(why[1]!.inputs.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['thickness', 'limit', 'diffusivity factor learned']),
    )
  })
  test('the band falls from the start to the limit and its middle crosses it at the middle date', () => {
    const { band, p50 } = forecastReady(ordinaryForecast({ readings: [reading(30, 1)] }))
    expect(band[0]!.at).toBe(DRY_MS)
    for (const { p10, p50: middle, p90 } of band) {
      expect(p10).toBeLessThanOrEqual(middle)
      expect(middle).toBeLessThanOrEqual(p90)
    }
    const crossing = band.find((point) => point.p50 <= 75)!
    expect(Math.abs((crossing.at - Date.parse(p50!)) / DAY_MS)).toBeLessThan(5)
  })
})

describe('DRY-11: learning', () => {
  test('readings of a slow bay move the date out, of a fast one in, and both narrow the range', () => {
    const none = forecastReady(ordinaryForecast())
    const slow = forecastReady(ordinaryForecast({ readings: [18, 26, 34].map((day) => reading(day, 0.6)) }))
    const fast = forecastReady(ordinaryForecast({ readings: [18, 26, 34].map((day) => reading(day, 1.6)) }))
    expect(dayOf(slow.p50)).toBeGreaterThan(dayOf(none.p50) + 10)
    expect(dayOf(fast.p50)).toBeLessThan(dayOf(none.p50) - 10)
    expect(width(fast)).toBeLessThan(width(none))
    expect(slow.learned!.diffusivityFactor.p50).toBeLessThan(0.8)
    expect(fast.learned!.diffusivityFactor.p50).toBeGreaterThan(1.25)
  })
  test('an exact reading just above the limit leaves days, not weeks', () => {
    const day = 62
    const near = forecastReady(
      ordinaryForecast({ readings: [reading(day, 1)], asOf: LAID_MS + (day + 1) * DAY_MS }),
    )
    const truth =
      (simulateDrying(ordinaryRun({ endAt: LAID_MS + 300 * DAY_MS, stopAtRhPercent: 75 })).reachedAt! -
        LAID_MS) /
      DAY_MS
    expect(dayOf(near.p10)).toBeLessThan(truth)
    expect(dayOf(near.p90)).toBeGreaterThan(truth)
  })
  test('one reading out of line with the others is named', () => {
    const good = [18, 24, 30, 36].map((day) => reading(day, 1))
    const { readingsCheck } = forecastReady(
      ordinaryForecast({ readings: [...good.slice(0, 3), reading(33, 1, 12), good[3]!] }),
    )
    const byId = new Map(readingsCheck.map((check) => [check.id, check]))
    expect(byId.get('day 33')!.z).toBeGreaterThan(2.5)
    expect(byId.get('day 33')!.note).toContain('leak')
    for (const day of [18, 24, 30, 36]) expect(Math.abs(byId.get(`day ${day}`)!.z!)).toBeLessThan(2.5)
  })
  test('a box is read as a box: the same number means a damper bay than by probe', () => {
    const byProbe = forecastReady(ordinaryForecast({ readings: [probe(35, 80)] }))
    const byBox = forecastReady(
      ordinaryForecast({ readings: [probe(35, 80, { method: 'hygrometer box', boxHours: 72 })] }),
    )
    expect(dayOf(byBox.p50)).toBeGreaterThan(dayOf(byProbe.p50) + 5)
  })
  test('a box that stood for weeks reads nearly what evened-out water gives', () => {
    const short = forecastReady(
      ordinaryForecast({ readings: [probe(38, 82, { method: 'hygrometer box', boxHours: 24 })] }),
    )
    const long = forecastReady(
      ordinaryForecast({ readings: [probe(38, 82, { method: 'hygrometer box', boxHours: 500 })] }),
    )
    expect(dayOf(long.p50)).toBeLessThan(dayOf(short.p50))
  })
  test('a probe nearer the face is expected drier', () => {
    const shallow = forecastReady(ordinaryForecast({ readings: [probe(30, 85, { depthMm: 10 })] }))
    const deep = forecastReady(ordinaryForecast({ readings: [probe(30, 85, { depthMm: 55 })] }))
    expect(dayOf(shallow.p50)).toBeGreaterThan(dayOf(deep.p50) + 10)
  })
  test('carbide readings forecast a carbide limit of calcium sulfate', () => {
    const forecast = (value: number) =>
      forecastReady(
        ordinaryForecast({
          material: materials.calciumSulfateScreed,
          thicknessMm: 50,
          curing: { laidAt: LAID_MS, sealedUntil: LAID_MS + 2 * DAY_MS },
          limit: { ...limit75, value: 0.5, unit: 'CM-%' },
          readings: [{ at: LAID_MS + 20 * DAY_MS, method: 'carbide', value }],
          asOf: LAID_MS + 21 * DAY_MS,
        }),
      )
    expect(dayOf(forecast(2.2).p50)).toBeGreaterThan(dayOf(forecast(1.2).p50))
    expect(dayOf(forecast(1.2).p10)).toBeGreaterThan(20)
  })
  test('oven samples forecast a limit by mass', () => {
    const forecast = forecastReady(
      ordinaryForecast({
        limit: { ...limit75, value: 3, unit: '% by mass' },
        readings: [probe(30, 4, { method: 'oven dry' })],
      }),
    )
    expect(dayOf(forecast.p90)).toBeGreaterThan(dayOf(forecast.p10))
  })
  test('what finished bays of the site taught narrows and shifts the range', () => {
    const taught = forecastReady(ordinaryForecast({ prior: { lnKappaMean: Math.log(0.7), lnKappaSd: 0.15 } }))
    const untaught = forecastReady(ordinaryForecast())
    expect(dayOf(taught.p50)).toBeGreaterThan(dayOf(untaught.p50) + 10)
    expect(width(taught)).toBeLessThan(width(untaught))
  })
})

describe('DRY-12: what cannot be told is said', () => {
  test('a room too damp ever to reach the limit gives no date and a probability', () => {
    const damp = forecastReady(ordinaryForecast({ futureClimate: { airC: 20, rhPercent: 78 } }))
    expect(damp.p90).toBeNull()
    expect(damp.notReachedProbability).toBeGreaterThan(0.5)
    expect(damp.p50).toBeNull()
  })
  test('more than one chance in ten of not arriving leaves the late date open, never the early one alone hidden', () => {
    const doubtful = forecastReady(ordinaryForecast({ futureClimate: { airC: 20, rhPercent: 69 } }))
    expect(doubtful.notReachedProbability).toBeGreaterThan(0.1)
    expect(doubtful.p90).toBeNull()
    expect(doubtful.p10).not.toBeNull()
  })
  test('readings from under the sheet, from tomorrow, or by a meter teach nothing and say so', () => {
    const { readingsCheck, learned } = forecastReady(
      ordinaryForecast({
        readings: [
          probe(3, 97),
          probe(50, 80),
          probe(30, 90, { method: 'electrical survey', id: 'meter' }),
          probe(8, 85, { method: 'hygrometer box', id: 'box' }),
        ],
      }),
    )
    expect(learned).toBeNull()
    expect(readingsCheck.map(({ z }) => z)).toEqual([null, null, null, null])
    expect(readingsCheck.map(({ note }) => note).join(' ')).toMatch(
      /sealed.*after the day.*does not measure.*before the curing sheet/s,
    )
  })
  test('without any room climate there is an answer: what is missing', () => {
    const forecast = forecastReady(
      ordinaryForecast({ pastClimate: [], futureClimate: { meanOfRecentDays: 7 } }),
    )
    expect(forecast.missing.join(' ')).toContain('room climate')
    expect([forecast.p10, forecast.p50, forecast.p90]).toEqual([null, null, null])
  })
  test('a limit of another kind is an answer too', () => {
    const forecast = forecastReady(
      ordinaryForecast({ limit: { ...limit75, value: 3, unit: 'lb/1000 ft²/24 h' } }),
    )
    expect(forecast.missing[0]).toContain('cannot be forecast')
  })
  test('gaps in the room climate and an unknown end of curing are assumptions in words', () => {
    const { assumptions } = forecastReady(
      ordinaryForecast({ pastClimate: weather(30), curing: { laidAt: LAID_MS, sealedUntil: null } }),
    )
    expect(assumptions.join(' ')).toMatch(/7 days after laying are assumed/)
    expect(assumptions.join(' ')).toMatch(/was not recorded/)
  })
  test('the mean of recent days is the future when asked for', () => {
    const recent = weather(40).map((sample, i) =>
      i >= 37 * 24 ? { ...sample, airC: 24, rhPercent: 45 } : sample,
    )
    const mean = forecastReady(
      ordinaryForecast({ pastClimate: recent, futureClimate: { meanOfRecentDays: 2 } }),
    )
    const typed = forecastReady(
      ordinaryForecast({ pastClimate: recent, futureClimate: { airC: 24, rhPercent: 45 } }),
    )
    expect(Math.abs(dayOf(mean.p50) - dayOf(typed.p50))).toBeLessThan(0.01)
  })
  test('before the sheet is off the forecast starts where it will be', () => {
    const early = forecastReady(ordinaryForecast({ asOf: LAID_MS + 2 * DAY_MS }))
    const late = forecastReady(ordinaryForecast({ asOf: DRY_MS }))
    expect(Math.abs(dayOf(early.p50) - dayOf(late.p50))).toBeLessThan(0.01)
  })
  test('nothing known only later moves a forecast made for an earlier day', () => {
    const before = forecastReady(
      ordinaryForecast({ pastClimate: weather(40), readings: [reading(20, 1)], asOf: LAID_MS + 25 * DAY_MS }),
    )
    const known = weather(40).slice(0, 25 * 24 + 1)
    const then = forecastReady(
      ordinaryForecast({ pastClimate: known, readings: [reading(20, 1)], asOf: LAID_MS + 25 * DAY_MS }),
    )
    expect(before).toEqual(then)
  })
})

describe('DRY-13: drivers', () => {
  test('a damper room and a thicker layer cost days; warmth and a looser limit save them', () => {
    const drivers = new Map(
      forecastReady(ordinaryForecast()).drivers.map(({ name, daysPerUnit }) => [name, daysPerUnit]),
    )
    expect(drivers.get('room humidity from now on')).toBeGreaterThan(0.2)
    expect(drivers.get('temperature from now on')).toBeLessThan(-0.5)
    expect(drivers.get('thickness')).toBeGreaterThan(1)
    expect(drivers.get('limit')).toBeLessThan(-2)
    expect(drivers.get('skin on the face')).toBeGreaterThan(5)
  })
  test('a driver agrees with a forecast of the changed bay', () => {
    const base = forecastReady(ordinaryForecast())
    const thicker = forecastReady(ordinaryForecast({ thicknessMm: 67 }))
    const perMm = base.drivers.find(({ name }) => name === 'thickness')!.daysPerUnit
    expect(dayOf(thicker.p50) - dayOf(base.p50)).toBeCloseTo(2 * perMm, 0)
  })
})

describe('DRY-14: long steps', () => {
  test('give the dates of the same 525 runs made one by one at 40 cells and one hour, within half a day', () => {
    const input = ordinaryForecast({
      pastClimate: weather(60),
      readings: [probe(22, 92.6), probe(29, 90), probe(37, 87.5), probe(45, 86.2), probe(52, 84.6)],
      asOf: LAID_MS + 60 * DAY_MS,
    })
    const quick = forecastDates(input)
    const plain = forecastDates(input, runOneByOne)
    if ('missing' in quick || 'missing' in plain) throw new Error('nothing was forecast')
    for (const p of [0.1, 0.5, 0.9]) {
      expect(Math.abs(quick.quantileMs(p)! - plain.quantileMs(p)!) / DAY_MS).toBeLessThan(0.5)
    }
    quick.ensemble.runs.forEach((run, i) => {
      run.predicted.forEach((rh, k) => {
        expect(Math.abs(rh - plain.ensemble.runs[i]!.predicted[k]!)).toBeLessThan(0.25)
      })
    })
  }, 120_000)
  test('give what a box reads, within a third of a per cent of hourly steps', () => {
    const input = ordinaryForecast({
      pastClimate: weather(40),
      thicknessMm: 30,
      limit: { ...limit75, value: 85 },
      readings: [probe(18, 82, { method: 'hygrometer box', boxHours: 72 })],
      asOf: LAID_MS + 19 * DAY_MS,
    })
    const quick = forecastDates(input)
    const plain = forecastDates(input, runOneByOne)
    if ('missing' in quick || 'missing' in plain) throw new Error('nothing was forecast')
    quick.ensemble.runs.forEach((run, i) => {
      expect(Math.abs(run.predicted[0]! - plain.ensemble.runs[i]!.predicted[0]!)).toBeLessThan(0.33)
    })
  }, 60_000)
})
