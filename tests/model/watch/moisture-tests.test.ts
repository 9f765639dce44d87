// 72 h, 96 h, 30 min (BS 8203 annex), salt 75 ± 2 % and number of points (BS 8203 annex, ASTM F2170): quoted second-hand;
// 1 % between readings, 14 days, rises of 3 %, 0.3 % a week: our judgement. A meter is a survey: German trade bodies.
import { describe, expect, it } from 'vitest'
import type { BodyOf } from '#model/record/kinds.ts'
import { day, hour, type StoryBuilder } from '../../support/story.ts'
import { boxTest, now, readyBay, t0 } from '../readiness/ready-bay.ts'
import { outcome, raised } from './support.ts'

type Test = Partial<BodyOf<'moisture-read'>>
const iso = (at: number) => new Date(at).toISOString()
const testedAt = now - 3 * day
const instrumentOf = (story: StoryBuilder) =>
  story.build().entries.find(({ kind }) => kind === 'instrument-added')!.id as unknown as Test['instrument']

describe('A38 to A40: tests that prove nothing', () => {
  it.each([
    ['a good test', {}, 'none', 'none', 'none'],
    ['71 h in place', { setAt: iso(testedAt - 71 * hour) }, 'not proven', 'none', 'none'],
    [
      'readings 1.1 % apart',
      {
        readings: [
          { at: iso(testedAt - day), rhPercent: 70.9 },
          { at: iso(testedAt), rhPercent: 72 },
        ],
      },
      'not proven',
      'none',
      'none',
    ],
    ['one reading', { readings: [{ at: iso(testedAt), rhPercent: 72 }] }, 'not proven', 'none', 'none'],
    ['soak not recorded', { probeSoakMin: undefined }, 'not proven', 'none', 'none'],
    ['instrument not named', { instrument: undefined }, 'none', 'not proven', 'none'],
    ['heating not said', { neverHeated: undefined }, 'none', 'none', 'not proven'],
    [
      'driers off for 95 h',
      { neverHeated: undefined, driersOffSince: iso(testedAt - 96 * hour - 95 * hour) },
      'none',
      'none',
      'not proven',
    ],
    [
      'driers off for 96 h',
      { neverHeated: undefined, driersOffSince: iso(testedAt - 192 * hour) },
      'none',
      'none',
      'none',
    ],
    ['room at 14.9 °C counts, and asks why', { roomC: 14.9, floorC: 14.5 }, 'none', 'none', 'watch'],
    ['room at 15 °C', { roomC: 15, floorC: 14.5 }, 'none', 'none', 'none'],
    ['floor 3.1 K colder than the air', { roomC: 20, floorC: 16.9 }, 'none', 'none', 'watch'],
  ] as [string, Test, string, string, string][])('TEST-1: %s', (_, test, method, instrument, climate) => {
    const story = readyBay({ test, points: ['P1'] })
    expect(outcome('A38', story, now)).toBe(method)
    expect(outcome('A39', story, now)).toBe(instrument)
    expect(outcome('A40', story, now)).toBe(climate)
  })

  it.each([
    [30, 75.2, true, 'none'],
    [30.1, 75.2, true, 'not proven'],
    [5, 73, true, 'none'],
    [5, 72.9, true, 'not proven'],
    [5, 77, true, 'none'],
    [5, 77.1, true, 'not proven'],
    [5, 75, false, 'not proven'],
  ])(
    'TEST-2: probe checked %s days before at %s %%, passed %s: %s',
    (daysBefore, foundPercent, passed, expected) => {
      const story = readyBay({ without: ['box'], points: ['P1'], testedAt: now - 60 * day })
      const instrument = instrumentOf(story)
      story.note(
        'instrument-checked',
        testedAt - daysBefore * day,
        { check: 'salt', foundPercent, passed },
        { subject: instrument },
      )
      boxTest(story, testedAt, 72, { instrument })
      expect(outcome('A39', story, now)).toBe(expected)
    },
  )

  it('TEST-2: an instrument is judged as it was known on the day: a check after the test helps nothing', () => {
    const story = readyBay({ without: ['box'], testedAt: now - 90 * day })
    const instrument = instrumentOf(story)
    boxTest(story, testedAt, 72, { instrument })
    story.note(
      'instrument-checked',
      testedAt + hour,
      { check: 'salt', foundPercent: 75, passed: true },
      { subject: instrument },
    )
    expect(outcome('A39', story, now)).toBe('not proven')
  })

  it('TEST-3: three spoilt tests at one point are one alert; a valid one ends it', () => {
    const story = readyBay({ points: ['P1'], test: { sealOk: false }, testedAt: now - 9 * day })
    const instrument = instrumentOf(story)
    boxTest(story, now - 7 * day, 72, { instrument, sealOk: false })
    expect(outcome('A38', story, now - 5 * day)).toBe('not proven')
    boxTest(story, now - 4 * day, 72, { instrument })
    expect(outcome('A38', story, now)).toBe('not proven ended')
    expect(raised('A38', story, now)[0]!.until).toBe(now - 4 * day)
  })

  it('TEST-4: the heating log is believed over the test sheet', () => {
    const story = readyBay({
      points: ['P1'],
      setting: { zone: { heated: true } },
      test: { heatingOffSince: iso(testedAt - 300 * hour) },
    })
    expect(outcome('A40', story, now)).toBe('none')
    story.heating(testedAt - 120 * hour, { flowC: 35 })
    expect(outcome('A40', story, now)).toBe('not proven')
  })
})

describe('A41 places, A42 wrong test, A46 stale', () => {
  it.each([
    ['three places for a zone of 20 m²', readyBay(), 'none'],
    ['two places', readyBay({ points: ['P1', 'P2'] }), 'not proven'],
    ['three places, none the wettest', readyBay({ test: { wettestPoint: undefined } }), 'not proven'],
    ['none tested yet', readyBay({ without: ['box'] }), 'none'],
  ])('TEST-5: %s', (_, story, expected) => {
    expect(outcome('A41', story, now)).toBe(expected)
  })

  const meter = () => readyBay({ points: ['P1'], test: { method: 'electrical survey', meterReading: 12 } })
  it.each([
    ['a meter survey alone', meter(), 'none'],
    [
      'the hold point released on a meter survey',
      meter().note('hold-point-released', now - day, {
        point: 'moisture test',
        decision: 'released',
        saw: 'Meter 12',
      }),
      'not proven',
    ],
    [
      'released on the agreed test',
      readyBay().note('hold-point-released', now - day, {
        point: 'moisture test',
        decision: 'released',
        saw: '72 %',
      }),
      'none',
    ],
  ])('TEST-6: %s', (_, story, expected) => {
    expect(outcome('A42', story, now)).toBe(expected)
  })

  it.each([
    ['14 days old', readyBay({ testedAt: now - 14 * day }), 'none'],
    ['14 days and a minute old', readyBay({ testedAt: now - 14 * day - 60_000 }), 'not proven'],
    ['washed down since', readyBay().note('wet-event-noted', now - day, { what: 'wash-down' }), 'not proven'],
    ['washed down before', readyBay().note('wet-event-noted', now - 10 * day, { what: 'wash-down' }), 'none'],
    ['no test', readyBay({ without: ['box'] }), 'none'],
    [
      'covered on day 10',
      readyBay({ testedAt: now - 30 * day }).note('covering-laid', now - 20 * day, {
        on: '2026-04-15',
        covering: 'Vinyl',
      }),
      'none',
    ],
  ])('TEST-7: %s', (_, story, expected) => {
    expect(outcome('A46', story, now)).toBe(expected)
  })
})

describe('A43 wetter again, A44 stalled', () => {
  /** Valid readings at one point, so many days apart. */
  const trend = (everyDays: number, ...rh: number[]) => {
    const story = readyBay({ without: ['box'], testedAt: t0 + 20 * day })
    const instrument = instrumentOf(story)
    rh.forEach((value, i) => {
      const at = t0 + (25 + i * everyDays) * day
      story.note(
        'instrument-checked',
        at - day,
        { check: 'salt', foundPercent: 75, passed: true },
        { subject: instrument },
      )
      boxTest(story, at, value, { instrument })
    })
    return story
  }
  it.each([
    ['a rise of 3.0 %', trend(7, 85, 80, 83), 'none'],
    ['a rise of 3.1 %', trend(7, 85, 80, 83.1), 'stop'],
    ['falling', trend(7, 85, 80, 78), 'none'],
    ['a rise, then dry again', trend(7, 85, 80, 84, 80), 'stop ended'],
    ['one reading', trend(7, 85), 'none'],
  ])('TEST-8: %s', (_, story, expected) => {
    expect(outcome('A43', story, now)).toBe(expected)
  })

  it('TEST-8: a reading that proves nothing shows no rise', () => {
    const story = trend(7, 85, 80)
    boxTest(story, t0 + 40 * day, 90, { instrument: instrumentOf(story), sealOk: false })
    expect(outcome('A43', story, now)).toBe('none')
  })

  it.each([
    ['0.5 % in two weeks, above the limit', trend(7, 85, 84.7, 84.5), 'act'],
    ['0.3 % a week exactly', trend(7, 85, 84.7, 84.4), 'none'],
    ['still, but below the limit', trend(7, 74, 74, 74), 'none'],
    ['two readings', trend(7, 85, 85), 'none'],
    ['three readings in four days', trend(2, 85, 85, 85), 'none'],
    ['stalled, then drying', trend(7, 85, 84.9, 84.8, 80), 'act ended'],
  ])('TEST-9: %s', (_, story, expected) => {
    expect(outcome('A44', story, now)).toBe(expected)
  })
})

describe('A45 covered before ready', () => {
  const laid = { on: '2026-05-05', covering: 'Vinyl' }
  it.each([
    ['ready', readyBay().note('covering-laid', now, laid), 'none'],
    ['too wet', readyBay({ rhPercent: 80 }).note('covering-laid', now, laid), 'act NC'],
    ['not proven', readyBay({ without: ['box'] }).note('covering-laid', now, laid), 'act NC'],
    ['not covered', readyBay({ rhPercent: 80 }), 'none'],
  ])('TEST-10: %s', (_, story, expected) => {
    expect(outcome('A45', story, now + day)).toBe(expected)
  })

  it('TEST-10: a test made after the covering does not heal it; a waiver is shown', () => {
    const story = readyBay({ without: ['box'] })
      .note('bay-decided', now - hour, {
        decision: 'waived',
        covering: 'vinyl',
        verdictShown: 'not proven',
        reasons: [{ reason: 'Ordered by the client' }],
      })
      .note('covering-laid', now, laid)
    boxTest(story, now + 5 * day, 70, { instrument: instrumentOf(story) })
    const [alert] = raised('A45', story, now + 6 * day)
    expect(alert).toMatchObject({ nonconformance: true, until: null })
    expect(alert!.evidence).toContainEqual(expect.objectContaining({ value: 'Ordered by the client' }))
  })
})
