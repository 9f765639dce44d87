import { describe, expect, it } from 'vitest'
import { forecastInputOfStory, forecastOfStory, forecastReady, limitOfStory } from '#model/drying/index.ts'
import type { BayStory } from '#model/record/story.ts'
import { day, hour, instant, type StoryBuilder, storyOf } from '../../support/story.ts'

const laid = instant('2026-01-06T15:00Z')
const asOf = laid + 30 * day
const question = { covering: 'vinyl', asOf } as const

/** Laid, covered for a week, then read twice a day at 20 °C and 55 %. */
function usual(builder: StoryBuilder = storyOf({ zone: { moistureMethod: 'probe' } })): StoryBuilder {
  builder.finished(laid).sheetOn(laid + hour)
  builder.sheetOff(laid + 7 * day)
  for (let i = 0; i < 60; i++) builder.air(laid + (i * day) / 2, { airC: 20, rhPercent: 55 })
  return builder
}
const inputOf = (builder: StoryBuilder) => forecastInputOfStory(builder.build(), question)
const probe = (at: number, rhPercent: number, body = {}) => ({
  method: 'probe' as const,
  point: 'P1',
  setAt: new Date(at - 80 * hour).toISOString(),
  readings: [
    { at: new Date(at - 8 * hour).toISOString(), rhPercent },
    { at: new Date(at).toISOString(), rhPercent },
  ],
  holeDepthMm: 28,
  ...body,
})

describe('what a forecast takes from a story', () => {
  it('STO-1: a usual bay gives material, thickness, laying, end of curing, climate and limit', () => {
    const { input, missing, assumptions } = inputOf(usual())
    expect(missing).toEqual([])
    expect(input).toMatchObject({
      material: { id: 'cement-sand-screed' },
      thicknessMm: 70,
      faces: 1,
      curing: { laidAt: laid, sealedUntil: laid + 7 * day },
      futureClimate: { meanOfRecentDays: 14 },
      readings: [],
      limit: { value: 75, unit: '% RH' },
      asOf,
    })
    expect(input!.pastClimate).toHaveLength(60)
    expect(assumptions).toContain('No thickness was measured; the design thickness of 70 mm is assumed.')
  })

  it('STO-2: measured thickness goes before what was found, and that before design', () => {
    const found = usual().finished(laid, { meanThicknessMm: 66 })
    expect(inputOf(found).input?.thicknessMm).toBe(66)
    expect(inputOf(found.thickness(laid + day, 58, 60, 68)).input?.thicknessMm).toBe(62)
    expect(inputOf(found).assumptions.some((sentence) => /design thickness/.test(sentence))).toBe(false)
  })

  it.each([
    ['never covered', storyOf().finished(laid), null, null],
    [
      'still covered',
      storyOf()
        .finished(laid)
        .sheetOn(laid + hour),
      asOf,
      /still on.*assumed to come off/,
    ],
    [
      'blown off and not put back',
      storyOf()
        .finished(laid)
        .sheetOn(laid)
        .sheetOff(laid + 2 * day, 'blown off'),
      laid + 2 * day,
      /2026-01-08 \(blown off\).*counted from then/,
    ],
    [
      'lifted for an hour and put back until the end of curing',
      storyOf()
        .finished(laid)
        .sheetOn(laid)
        .sheetOff(laid + 2 * day, 'lifted')
        .sheetOn(laid + 2 * day + hour)
        .sheetOff(laid + 9 * day),
      laid + 9 * day,
      null,
    ],
  ])('STO-3: drying of a bay %s begins when it does', (_name, builder, sealedUntil, sentence) => {
    const { input, assumptions } = inputOf(builder)
    expect(input?.curing.sealedUntil).toBe(sealedUntil)
    const told = assumptions.find((one) => /sheet/.test(one))
    if (sentence === null) expect(told).toBeUndefined()
    else expect(told).toMatch(sentence)
  })

  it('STO-4: loggers and typed readings make one climate by the hour; outside air and humidity alone count for nothing', () => {
    const builder = storyOf().finished(laid)
    builder.logger(laid, { airC: [10, 12, 20, 20], rhPercent: [50, 60, 70, 70] }, { everyMin: 30 })
    builder.logger(laid + 10 * hour, { rhPercent: [99, 99] })
    builder.logger(laid + 20 * hour, { outsideC: [1, 1], outsideRhPercent: [90, 90] })
    builder.air(laid + 5 * hour, { airC: 16, rhPercent: 65, place: 'outside' })
    builder.air(laid + 6 * hour, { airC: 16 })
    builder.air(laid + 7 * hour, { airC: 16, rhPercent: 65 })
    expect(inputOf(builder).input?.pastClimate).toEqual([
      { at: laid + hour / 2, airC: 11, rhPercent: 55 },
      { at: laid + 1.5 * hour, airC: 20, rhPercent: 70 },
      { at: laid + 7.5 * hour, airC: 16, rhPercent: 65 },
    ])
  })

  it('STO-5: readings of screed and air speed join the hour they fall in', () => {
    const builder = storyOf().finished(laid)
    builder.logger(laid, { airC: [10], rhPercent: [50], airSpeedMs: [0.4] })
    builder.screedC(laid + 10 * 60_000, 14)
    expect(inputOf(builder).input?.pastClimate).toEqual([
      { at: laid + hour / 2, airC: 10, rhPercent: 50, airSpeedMs: 0.4, screedC: 14 },
    ])
  })

  it('STO-6: without readings of the last 14 days the room is assumed, and it is said', () => {
    const builder = storyOf()
      .finished(laid)
      .air(laid + 15 * day, { airC: 20, rhPercent: 50 })
    const stale = inputOf(builder)
    expect(stale.input?.futureClimate).toEqual({ airC: 18, rhPercent: 60 })
    expect(
      stale.assumptions.find((one) => /18 °C and 60 % RH are assumed \(our judgement\)/.test(one)),
    ).toBeDefined()
    const fresh = inputOf(builder.air(laid + 17 * day, { airC: 20, rhPercent: 50 }))
    expect(fresh.input?.futureClimate).toEqual({ meanOfRecentDays: 14 })
  })

  it('STO-7: nothing that happened after the day is used', () => {
    const builder = usual().air(asOf + day, { airC: 5, rhPercent: 95 })
    builder.note('moisture-read', asOf + 2 * day, probe(asOf + 2 * day, 60)).thickness(asOf + day, 40)
    const { input } = inputOf(builder)
    expect(input?.pastClimate).toHaveLength(60)
    expect(input?.readings).toEqual([])
    expect(input?.thicknessMm).toBe(70)
  })

  it('STO-8: a valid test is used with its depth or hours; a withdrawn one is not', () => {
    const at = laid + 25 * day
    const builder = usual().note('moisture-read', at, probe(at, 88))
    const id = builder.last
    expect(inputOf(builder).input?.readings).toEqual([
      { id, at: new Date(at).toISOString(), method: 'probe', value: 88, depthMm: 28 },
    ])
    expect(inputOf(builder.withdraw(id, at + hour)).input?.readings).toEqual([])
  })

  it('STO-9: a test that was not valid is left out with its reason, one that lacks a fact is used and told', () => {
    const at = laid + 25 * day
    const short = usual().note('moisture-read', at, {
      ...probe(at, 70),
      setAt: new Date(at - 9 * hour).toISOString(),
    })
    const left = inputOf(short)
    expect(left.input?.readings).toEqual([])
    expect(
      left.assumptions.find((one) => /test at P1 of 2026-01-31 was not valid and is not used/.test(one)),
    ).toBeDefined()

    const lacking = inputOf(usual().note('moisture-read', at, probe(at, 88)))
    expect(lacking.input?.readings).toHaveLength(1)
    expect(lacking.assumptions.find((one) => /is used although not recorded/.test(one))).toBeDefined()
  })

  it('STO-10: carbide, oven and box readings are taken on their own scales', () => {
    const at = laid + 25 * day
    const box = { ...probe(at, 90), method: 'hygrometer box' as const, holeDepthMm: undefined }
    const builder = usual()
      .note('moisture-read', at, {
        method: 'carbide',
        point: 'C1',
        cmPercent: 2.6,
        depthFromMm: 0,
        depthToMm: 70,
      })
      .note('moisture-read', at, { method: 'oven dry', point: 'O1', wetG: 210, dryG: 203, tareG: 63 })
      .note('moisture-read', at, box)
      .note('moisture-read', at, { method: 'electrical survey', point: 'E1', meterReading: 55 })
    const readings = inputOf(builder).input?.readings ?? []
    const of = (method: string) => readings.find((reading) => reading.method === method)
    expect(of('carbide')).toMatchObject({ value: 2.6, fromMm: 0, toMm: 70 })
    expect(of('oven dry')?.value).toBeCloseTo((100 * 7) / 140, 12)
    expect(of('hygrometer box')).toMatchObject({ value: 90, boxHours: 80 })
    expect(of('electrical survey')).toBeUndefined()
  })
})

describe('the limit that a bay has to keep', () => {
  const story = (zone: object, project: object = {}): BayStory => storyOf({ zone, project }).build()

  it('STO-11: the contract goes before the rules for its covering, and only for that', () => {
    const byContract = story({ moistureMethod: 'probe', limitByContract: 70, limitReason: 'Clause 4.2' })
    expect(limitOfStory(byContract, 'vinyl')).toMatchObject({ value: 70, unit: '% RH', source: 'Clause 4.2' })
    expect(limitOfStory(byContract, 'timber bonded')).toMatchObject({ value: 65, source: 'BS 8201' })
  })

  it('STO-12: the limit is on the scale of the agreed test', () => {
    expect(limitOfStory(story({ moistureMethod: 'hygrometer box' }), 'vinyl')?.unit).toBe('% RH')
    const german = story({ moistureMethod: 'carbide' }, { ruleSet: 'german' })
    expect(limitOfStory(german, 'vinyl')).toMatchObject({ value: 2, unit: '% CM' })
    expect(limitOfStory(story({ moistureMethod: 'electrical survey' }), 'vinyl')).toBeNull()
  })
})

describe('forecast of a story', () => {
  it.each([
    ['a bay that is not laid', storyOf(), /When the bay was laid/],
    [
      'a fast-drying screed',
      storyOf({ bay: { screed: 'fast drying' } }).finished(laid),
      /maker’s data sheet/,
    ],
    [
      'a test without a limit',
      storyOf({ zone: { moistureMethod: 'electrical survey' } }).finished(laid),
      /A moisture limit for this covering/,
    ],
    [
      'an emission limit',
      storyOf({ zone: { moistureMethod: 'calcium chloride' }, project: { ruleSet: 'american' } }).finished(
        laid,
      ),
      /cannot be forecast/,
    ],
  ])('STO-13: of %s there is no date, and what is missing is said', (_name, builder, sentence) => {
    const forecast = forecastOfStory(builder.build(), question)
    expect(forecast).toMatchObject({ p10: null, p50: null, p90: null, band: [] })
    expect(forecast.missing.join(' ')).toMatch(sentence)
  })

  it('STO-14: a usual bay gets a range of dates after today, and every assumption is told once', () => {
    const forecast = forecastOfStory(usual().build(), question)
    expect(forecast.missing).toEqual([])
    const [p10, p50] = [Date.parse(forecast.p10!), Date.parse(forecast.p50!)]
    expect(p10).toBeGreaterThan(asOf)
    expect(p50).toBeGreaterThan(p10)
    expect(forecast.p90 === null || Date.parse(forecast.p90) > p50).toBe(true)
    expect(new Set(forecast.assumptions).size).toBe(forecast.assumptions.length)
    expect(forecast.assumptions.join(' ')).toMatch(/stay as it was on average in the last 14 days/)
  })

  it('STO-15: a wetter reading never brings the date nearer', () => {
    const at = laid + 25 * day
    const dates = [80, 86, 92].map((rh) => {
      const forecast = forecastOfStory(usual().note('moisture-read', at, probe(at, rh)).build(), question)
      return forecast.p50 === null ? Number.POSITIVE_INFINITY : Date.parse(forecast.p50)
    })
    expect(dates[0]!).toBeLessThan(dates[1]!)
    expect(dates[1]!).toBeLessThan(dates[2]!)
  })

  it('STO-16: the same story gives the same forecast, byte by byte', () => {
    const story = usual().build()
    const once = JSON.stringify(forecastOfStory(story, question))
    expect(JSON.stringify(forecastOfStory(JSON.parse(JSON.stringify(story)), question))).toBe(once)
    // The grid run in steps, to tell its progress, is the grid run at once.
    const { input } = forecastInputOfStory(story, question)
    const { p10, p50, p90, band } = forecastReady(input!)
    expect(JSON.parse(once)).toMatchObject({ p10, p50, p90, band })
  })
})
