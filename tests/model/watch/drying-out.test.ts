// Evaporation: Uno 1998, ACI Mat. J. 95-M34 (quoted second-hand); 1.0 kg/(m²·h) after ACI 305R as quoted on public pages;
// 0.25 and 0.5, 2 m/s, 8 K: our judgement. 30 °C: common practice.
import { describe, expect, it } from 'vitest'
import { effectiveRules } from '#model/rules/index.ts'
import { hour, instant, minute, storyOf } from '../../support/story.ts'
import { outcome, raised } from './support.ts'

const t0 = instant('2026-06-08T12:00:00Z')
const finished = () => storyOf().finished(t0)
const kmh = (speed: number) => speed / 3.6

describe('A05 open screed dries too fast', () => {
  // The four check values of the nomograph formula: 0.20, 0.53, 1.03 and 0.59 kg/(m²·h).
  it.each([
    ['20/20 °C, 50 %, 5 km/h: 0.20', { surfaceC: 20, airC: 20, rhPercent: 50, airSpeedMs: kmh(5) }, 'none'],
    ['22/24 °C, 40 %, 15 km/h: 0.53', { surfaceC: 22, airC: 24, rhPercent: 40, airSpeedMs: kmh(15) }, 'act'],
    ['25/28 °C, 35 %, 25 km/h: 1.03', { surfaceC: 25, airC: 28, rhPercent: 35, airSpeedMs: kmh(25) }, 'stop'],
    [
      '15/4 °C, 60 %, 20 km/h: 0.59, a cold windy day',
      { surfaceC: 15, airC: 4, rhPercent: 60, airSpeedMs: kmh(20) },
      'act',
    ],
    [
      '25/25 °C, 50 %, 10 km/h: 0.42',
      { surfaceC: 25, airC: 25, rhPercent: 50, airSpeedMs: kmh(10) },
      'watch',
    ],
  ] as const)('DRYOUT-1: %s', (_, air, expected) => {
    expect(outcome('A05', finished().air(t0 + 30 * minute, air), t0 + hour)).toBe(expected)
  })

  it('DRYOUT-2: without an air speed still air is assumed, and the alert says so', () => {
    const story = finished().air(t0 + 30 * minute, { airC: 24, rhPercent: 30, surfaceC: 35 })
    const [alert] = raised('A05', story, t0 + hour)
    expect(alert).toMatchObject({ severity: 'watch' })
    expect(alert!.evidence.filter(({ what }) => what === 'Assumed').map(({ value }) => value)).toEqual([
      'still air, because no air speed was read: the least it can be',
    ])
  })

  it('DRYOUT-2: without humidity there is no rate, and nothing is called good', () => {
    const story = finished().air(t0 + 30 * minute, { airC: 35, airSpeedMs: 5 })
    expect(outcome('A05', story, t0 + hour)).toBe('none')
    const late = raised('A24', story, t0 + 3 * hour)[0]!
    expect(late.evidence.find(({ what }) => what === 'Evaporation meanwhile')!.value).toContain('not known')
  })

  it('DRYOUT-2: a wind read two hours from the humidity does not belong to it', () => {
    const story = finished()
      .air(t0 + 30 * minute, { airC: 20, rhPercent: 50, surfaceC: 20 })
      .air(t0 + 150 * minute, { airC: 20, airSpeedMs: 12 })
    expect(outcome('A05', story, t0 + 3 * hour)).toBe('none')
  })

  const windy = { surfaceC: 25, airC: 28, rhPercent: 35, airSpeedMs: kmh(25) }
  it('DRYOUT-3: under a whole sheet it does not matter; under half a sheet it does', () => {
    const at = t0 + 3 * hour
    expect(
      outcome(
        'A05',
        finished()
          .sheetOn(t0 + hour)
          .air(at, windy),
        at + hour,
      ),
    ).toBe('none')
    expect(
      outcome(
        'A05',
        finished()
          .sheetOn(t0 + hour, { coveredPercent: 60 })
          .air(at, windy),
        at + hour,
      ),
    ).toBe('stop')
  })

  it('DRYOUT-3: the sheet ends it, a calm reading ends it, the next day is no longer its business', () => {
    const at = t0 + 30 * minute
    expect(
      outcome(
        'A05',
        finished()
          .air(at, windy)
          .sheetOn(t0 + hour),
        t0 + 2 * hour,
      ),
    ).toBe('stop ended')
    const calm = finished()
      .air(at, windy)
      .air(t0 + 2 * hour, { airC: 18, rhPercent: 70, surfaceC: 18, airSpeedMs: 0.1 })
    expect(outcome('A05', calm, t0 + 3 * hour)).toBe('stop ended')
    expect(outcome('A05', finished().air(t0 + 24 * hour, windy), t0 + 25 * hour)).toBe('none')
  })

  it('DRYOUT-3: an answer to "watch" does not answer what became "stop"', () => {
    const story = finished().air(t0 + 10 * minute, {
      surfaceC: 25,
      airC: 25,
      rhPercent: 50,
      airSpeedMs: kmh(10),
    })
    const [watch] = raised('A05', story, t0 + 20 * minute)
    story.note('alert-answered', t0 + 20 * minute, { alert: watch!.id, answer: 'Doors closed' })
    expect(raised('A05', story, t0 + 25 * minute)[0]!.answeredBy).not.toBeNull()
    story.air(t0 + 40 * minute, windy)
    const [stop] = raised('A05', story, t0 + hour)
    expect(stop).toMatchObject({ id: watch!.id, severity: 'stop', answeredBy: null })
  })
})

describe('A06 draught', () => {
  it.each([
    ['2.0 m/s', finished().air(t0 + hour, { airSpeedMs: 2 }), 'none'],
    ['2.1 m/s', finished().air(t0 + hour, { airSpeedMs: 2.1 }), 'act'],
    [
      '2.1 m/s over the sheet',
      finished()
        .sheetOn(t0 + minute)
        .air(t0 + hour, { airSpeedMs: 2.1 }),
      'none',
    ],
    ['doors open', finished().air(t0 + hour, { openings: 'open' }), 'act'],
    ['doors not mentioned', finished().air(t0 + hour, {}), 'none'],
    ['doors open after two days', finished().air(t0 + 48 * hour, { openings: 'open' }), 'none'],
    [
      'doors open, then closed',
      finished()
        .air(t0 + hour, { openings: 'open' })
        .note('protection-on', t0 + 1.5 * hour, { what: 'windows closed' }),
      'act ended',
    ],
  ])('DRYOUT-4: %s', (_, story, expected) => {
    expect(outcome('A06', story, t0 + 3 * hour)).toBe(expected)
    if (expected === 'none') expect(outcome('A06', story, t0 + 49 * hour)).toBe('none')
  })
})

describe('A07 sun or heater, A08 hot mix', () => {
  it.each([
    ['surface 8 K above the air', finished().air(t0 + hour, { airC: 20, surfaceC: 28 }), 'none'],
    ['surface 8.1 K above the air', finished().air(t0 + hour, { airC: 20, surfaceC: 28.1 }), 'act'],
    ['surface not read', finished().air(t0 + hour, { airC: 20 }), 'none'],
    ['on the third day', finished().air(t0 + 49 * hour, { airC: 20, surfaceC: 40 }), 'none'],
  ])('DRYOUT-5: %s', (_, story, expected) => {
    expect(outcome('A07', story, t0 + 2 * hour)).toBe(expected)
  })

  it.each([
    ['mix at 30 °C', storyOf().batch(t0, { mixC: 30 }), 'none'],
    ['mix at 30.5 °C', storyOf().batch(t0, { mixC: 30.5 }), 'act'],
    ['mix not read', storyOf().batch(t0, { mixC: undefined }), 'none'],
    [
      'air at 31 °C while laying',
      storyOf()
        .batch(t0)
        .air(t0 + 10 * minute, { airC: 31 })
        .batch(t0 + 20 * minute),
      'act',
    ],
    [
      'ended with the finish',
      storyOf()
        .batch(t0, { mixC: 33 })
        .finished(t0 + hour),
      'act ended',
    ],
  ])('DRYOUT-6: %s', (_, story, expected) => {
    expect(outcome('A08', story, t0 + 2 * hour)).toBe(expected)
  })

  it('DRYOUT-6: a company rule of 25 °C acts', () => {
    const rules = effectiveRules('british', {}, [{ id: 'mix.tempMostC', value: 25, reason: 'Retarder' }])
    expect(outcome('A08', storyOf().batch(t0, { mixC: 26 }), t0 + hour, { rules })).toBe('act')
  })
})
