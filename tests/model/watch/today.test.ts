// 07:00 and 15:00, 2 h, 60 min: our judgement. Drop weight from day 14 (BS 8204-1 Annex D, quoted second-hand).
import { describe, expect, it } from 'vitest'
import { readinessOf } from '#model/readiness/index.ts'
import { bayStateOf, todayLineOf, watchBay } from '#model/watch/index.ts'
import { day, hour, instant, minute, type StoryBuilder, storyOf } from '../../support/story.ts'
import { now, readyBay } from '../readiness/ready-bay.ts'
import { british, hourly } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const line = (story: StoryBuilder, asOf: number) => todayLineOf(story.build(), asOf, british)
const due = (story: StoryBuilder, asOf: number, what: string) =>
  line(story, asOf)?.due.find((act) => act.what === what)
const warm = (tempC = 20) =>
  storyOf()
    .finished(t0)
    .logger(t0, { screedC: hourly(24 * 40, tempC) })

describe('TODAY: what falls due', () => {
  it('TODAY-1: the sheet within two hours of the finish', () => {
    expect(due(storyOf().finished(t0), t0 + hour, 'Lay the sheet')).toMatchObject({
      at: t0 + 2 * hour,
      overdue: false,
      record: 'sheet-on',
    })
    expect(due(storyOf().finished(t0), t0 + 3 * hour, 'Lay the sheet')).toMatchObject({ overdue: true })
    expect(
      due(
        storyOf()
          .finished(t0)
          .sheetOn(t0 + hour),
        t0 + 3 * hour,
        'Lay the sheet',
      ),
    ).toBeUndefined()
  })

  it('TODAY-1: within one hour where it dries fast', () => {
    const story = storyOf()
      .finished(t0)
      .air(t0 + 10 * minute, { surfaceC: 22, airC: 24, rhPercent: 40, airSpeedMs: 15 / 3.6 })
    expect(due(story, t0 + 30 * minute, 'Lay the sheet')).toMatchObject({ at: t0 + hour })
  })

  it('TODAY-2: the day on which the sheet comes off, with the cold hours added', () => {
    const on = t0 + hour
    expect(due(warm().sheetOn(on), t0 + 3 * day, 'Take the sheet off')).toMatchObject({ at: on + 7 * day })
    const cold = storyOf()
      .finished(t0)
      .logger(t0, { screedC: hourly(24 * 4, (i) => (i > 24 && i <= 48 ? 3 : 12)) })
      .sheetOn(on)
    const { at, because } = due(cold, t0 + 3 * day, 'Take the sheet off')!
    expect((at - on - 7 * day) / hour).toBeCloseTo(25, 6)
    expect(because).toContain('25 cold hours added')
  })

  it('TODAY-3: readings at 07:00 and 15:00 on the site’s clock, also in summer time', () => {
    const june = instant('2026-06-08T10:00:00Z')
    const story = storyOf().finished(june)
    const acts = line(story, instant('2026-06-09T12:00:00Z'))!.due.filter(
      ({ what }) => what === 'Read air and screed',
    )
    expect(acts.map(({ at, overdue }) => [new Date(at).toISOString(), overdue])).toEqual([
      ['2026-06-09T06:00:00.000Z', true],
      ['2026-06-09T14:00:00.000Z', false],
    ])
    story.air('2026-06-09T06:20:00Z', { airC: 17 })
    expect(
      line(story, instant('2026-06-09T12:00:00Z'))!.due.filter(
        ({ what, overdue }) => what === 'Read air and screed' && overdue,
      ),
    ).toEqual([])
    expect(due(story, june + 9 * day, 'Read air and screed')).toBeUndefined()
  })

  it('TODAY-4: soundness from day 14, boards, flatness, a moisture test, a decision', () => {
    const story = warm()
      .sheetOn(t0 + hour)
      .sheetOff(t0 + 8 * day)
    expect(due(story, t0 + 12.5 * day, 'Test the soundness')).toMatchObject({
      at: t0 + 14 * day,
      overdue: false,
    })
    expect(due(story, t0 + 11 * day, 'Test the soundness')).toBeUndefined()
    expect(due(story, t0 + 9 * day, 'Put boards on the routes')).toMatchObject({ at: t0 + 8 * day })
    expect(due(story, t0 + 36 * day, 'Check the flatness')).toMatchObject({ at: t0 + 36 * day })
    // 70 mm: 50 + 2 · 20 = 90 days from the end of curing (rule attributed to BS 8204, quoted second-hand).
    expect(due(story, t0 + 97 * day, 'Test the moisture')).toMatchObject({
      at: t0 + 98 * day,
      record: 'moisture-read',
    })
    expect(due(readyBay(), now, 'Decide on the covering')).toMatchObject({ record: 'bay-decided' })
    expect(due(readyBay({ rhPercent: 80 }), now, 'Decide on the covering')).toBeUndefined()
  })

  it('TODAY-5: a covered bay needs nothing', () => {
    const story = readyBay().note('covering-laid', now, { on: '2026-05-05', covering: 'Vinyl' })
    expect(line(story, now + day)).toBeNull()
  })
})

describe('TODAY: minutes left', () => {
  it.each([
    [20, 10, 50],
    [25, 10, 32],
    [10, 10, 68],
    [20, 75, -15],
  ])('TODAY-6: at %s °C after %s min: %s min left', (mixC, age, left) => {
    const [batch] = line(storyOf().batch(t0, { mixC }), t0 + age * minute)!.batches
    expect(batch).toMatchObject({ number: 1, minutesLeft: left })
  })

  it('TODAY-6: a batch that is laid, or whose bay is finished, is not waiting', () => {
    const laid = storyOf().batch(t0, { laidAt: new Date(t0 + 20 * minute).toISOString() })
    expect(line(laid, t0 + 15 * minute)!.batches).toHaveLength(1)
    expect(line(laid, t0 + 25 * minute)!.batches).toHaveLength(0)
    expect(
      line(
        storyOf()
          .batch(t0)
          .finished(t0 + hour),
        t0 + 65 * minute,
      )!.batches,
    ).toHaveLength(0)
  })
})

describe('TODAY: who may walk where', () => {
  it.each([
    ['day 3 at 20 °C', warm(), 3, 'nothing', 'foot'],
    ['day 4 at 20 °C', warm(), 4, 'foot', 'boards'],
    ['day 6 at 20 °C: 4 320 °C·h', warm(), 6, 'boards', 'free'],
    ['day 6 at 10 °C: 2 880 °C·h', warm(10), 6, 'foot', 'boards'],
    ['day 29 at 20 °C', warm(), 29, 'free', null],
    ['day 5, temperature never read', storyOf().finished(t0), 5, 'not known', 'foot'],
    ['day 2, temperature never read: the days are not over', storyOf().finished(t0), 2, 'nothing', 'foot'],
    [
      'day 6, frozen on night one',
      storyOf()
        .finished(t0)
        .logger(t0, { screedC: [10, -1, -1, ...hourly(200, 20)] }),
      6,
      'nothing',
      null,
    ],
  ] as const)('TODAY-7: %s', (_, story, days, expected, next) => {
    const { traffic } = line(story, t0 + days * day)!
    expect(traffic!.now).toBe(expected)
    expect(traffic!.next?.what ?? null).toBe(next)
    expect(traffic!.because).not.toBe('')
  })
})

describe('TODAY: pour today?', () => {
  const plannedFor = '2026-03-03T08:00:00Z'
  const asOf = instant('2026-03-02T15:00:00Z')
  const planned = () =>
    storyOf({ bay: { plannedFor } })
      .note('base-surveyed', asOf - hour, { prepared: 'membrane', dry: true, clean: true, baseC: 9 })
      .note('edge-strip-fitted', asOf - hour, { thicknessMm: 10, complete: true })
  const forecast = (story: StoryBuilder, lowestC: number, highestC = 14, until = '2026-03-08T00:00:00Z') =>
    story.note('weather-forecast-noted', asOf - hour, {
      from: '2026-03-03T00:00:00Z',
      until,
      lowestC,
      highestC,
      givenBy: 'Weather desk',
    })
  const cold = () => forecast(planned(), -2)
  it.each([
    ['mild, base warm', forecast(planned(), 6), 'go'],
    ['frost forecast, nothing planned', cold(), 'no-go'],
    [
      'frost forecast, heat planned',
      cold().note('protection-on', asOf - hour, { what: 'flued heater', planned: true }),
      'go with protection',
    ],
    ['hot', forecast(planned(), 18, 33), 'go with protection'],
    ['no forecast', planned(), 'not known'],
    ['a forecast for the first day only', forecast(planned(), 6, 14, '2026-03-04T08:00:00Z'), 'not known'],
    [
      'base not surveyed',
      forecast(
        storyOf({ bay: { plannedFor } }).note('edge-strip-fitted', asOf - hour, {
          thicknessMm: 10,
          complete: true,
        }),
        6,
      ),
      'not known',
    ],
    [
      'no edge strip',
      forecast(
        storyOf({ bay: { plannedFor } }).note('base-surveyed', asOf - hour, {
          prepared: 'membrane',
          dry: true,
          clean: true,
          baseC: 9,
        }),
        6,
      ),
      'no-go',
    ],
  ])('TODAY-8: %s', (_, story, expected) => {
    const { pour } = line(story, asOf)!
    expect(pour).toMatchObject({ verdict: expected })
    expect(pour!.because.length).toBeGreaterThan(10)
  })

  it('TODAY-8: a pour next week is not talked about, nor one that has begun', () => {
    expect(line(storyOf({ bay: { plannedFor: '2026-03-12T08:00:00Z' } }), asOf)).toBeNull()
    expect(line(cold().batch(asOf - minute), asOf)!.pour).toBeNull()
  })
})

describe('TODAY: what is not written down', () => {
  it('TODAY-9: no air today, no batch, no lift, no thickness, no word on traffic', () => {
    const { gaps } = line(storyOf().finished(t0), t0 + 30 * hour)!
    expect(gaps.join(' ')).toMatch(/air reading today.*batch.*lift.*walked.*thickness/)
  })

  it('TODAY-9: written down, they go', () => {
    const story = storyOf()
      .batch(t0 - hour, { areaNote: 'All' })
      .lift(1, t0 - hour, t0)
      .finished(t0)
      .thickness(t0, 70)
      .air(t0 + 29 * hour, { airC: 14 })
      .screedC(t0 + 29 * hour, 15)
      .note('no-traffic-confirmed', t0 + 29 * hour, { heldBy: 'Site office' })
    expect(line(story, t0 + 30 * hour)?.gaps ?? []).toEqual([])
  })
})

describe('TODAY: the one word for a bay', () => {
  const word = (story: StoryBuilder, asOf: number, asked = true) => {
    const built = story.build()
    const readiness = asked ? readinessOf(built, 'vinyl', asOf, british) : null
    return bayStateOf(built, watchBay(built, asOf, british), readiness, asOf).word
  }
  it.each([
    ['nothing laid', storyOf(), t0, 'planned'],
    ['under the sheet', warm().sheetOn(t0), t0 + day, 'curing'],
    [
      'uncovered after curing',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 8 * day),
      t0 + 9 * day,
      'drying',
    ],
    ['ready', readyBay(), now, 'ready'],
    ['old, and no test', readyBay({ without: ['box'] }), now, 'not proven'],
    ['too wet', readyBay({ rhPercent: 82 }), now, 'drying'],
    [
      'covered',
      readyBay().note('covering-laid', now, { on: '2026-05-05', covering: 'Vinyl' }),
      now + day,
      'covered',
    ],
    [
      'being laid',
      storyOf()
        .note('edge-strip-fitted', t0 - day, { thicknessMm: 10, complete: true })
        .batch(t0),
      t0 + minute,
      'curing',
    ],
  ] as const)('TODAY-10: %s: %s', (_, story, asOf, expected) => {
    expect(word(story, asOf)).toBe(expected)
  })

  it('TODAY-10: an open stop is the word, whatever else holds; not asked, it is never ready', () => {
    const frozen = storyOf()
      .finished(t0)
      .screedC(t0 + 8 * hour, -2)
      .sheetOn(t0 + hour)
    expect(word(frozen, t0 + day)).toBe('stopped')
    expect(word(readyBay(), now, false)).toBe('drying')
  })
})
