// Not before day 21 (cement) or 7 (calcium sulfate), 25 °C for 3 days, 55 °C the most, 20 °C to keep frost out (EN 1264-4,
// quoted second-hand); 5 K/day up and 10 K/day down (common practice); 10 K/day, 8 K (our judgement).
import { describe, expect, it } from 'vitest'
import { day, hour, instant, type StoryBuilder, storyOf } from '../../support/story.ts'
import { outcome } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const heated = (screed: 'cement-sand' | 'calcium sulfate' = 'cement-sand') =>
  storyOf({ zone: { heated: true }, bay: { screed } }).finished(t0)
/** One flow temperature a day from a day of the bay's life on. */
const flows = (story: StoryBuilder, from: number, ...flowC: number[]) =>
  flowC.reduce((each, value, i) => each.heating(t0 + (from + i) * day, { flowC: value }), story)

describe('A31 heated too early', () => {
  it.each([
    ['26 °C on day 20.9', flows(heated(), 20.9, 26), 'act NC'],
    ['26 °C on day 21', flows(heated(), 21, 26), 'none'],
    ['25 °C on day 10: above frost-keeping warmth', flows(heated(), 10, 25), 'watch'],
    ['20 °C on day 2 keeps frost out', flows(heated(), 2, 20), 'none'],
    ['calcium sulfate, 30 °C on day 6.9', flows(heated('calcium sulfate'), 6.9, 30), 'act NC'],
    ['calcium sulfate, 30 °C on day 7', flows(heated('calcium sulfate'), 7, 30), 'none'],
    ['flow not read', heated().heating(t0 + 5 * day, { state: 'off', flowC: undefined }), 'none'],
    ['the zone was heated before this bay was laid', heated().heating(t0 - 10 * day, { flowC: 45 }), 'none'],
  ])('HEAT-1: %s', (_, story, expected) => {
    expect(outcome('A31', story, t0 + 30 * day)).toBe(expected)
  })
})

describe('A32 heated too fast or too hot', () => {
  it.each([
    ['25, 25, 25, then 5 K a day', flows(heated(), 21, 25, 25, 25, 30, 35, 40), 'none'],
    ['a rise of 6 K', flows(heated(), 21, 25, 25, 25, 31), 'watch'],
    ['a rise of 10 K', flows(heated(), 21, 25, 25, 25, 35), 'watch'],
    ['a rise of 11 K', flows(heated(), 21, 25, 25, 25, 36), 'act'],
    ['8 K over two days', flows(heated(), 21, 25, 25, 25).heating(t0 + 25 * day, { flowC: 33 }), 'none'],
    ['30 °C in the first three days', flows(heated(), 21, 30, 30, 30), 'watch'],
    ['56 °C', flows(heated(), 21, 25, 25, 25, 30, 35, 40, 45, 50, 55, 56), 'act'],
    ['55 °C', flows(heated(), 21, 25, 25, 25, 30, 35, 40, 45, 50, 55), 'none'],
    ['from 15 °C of frost-keeping to the first step', flows(heated(), 20, 15, 25, 25, 25), 'none'],
    ['no heating', flows(storyOf().finished(t0), 21, 25, 60), 'none'],
  ])('HEAT-2: %s', (_, story, expected) => {
    expect(outcome('A32', story, t0 + 40 * day)).toBe(expected)
  })
})

describe('A33 circuits apart, A34 cooled too fast', () => {
  const circuits = (a: number, b: number, apartHours = 1) =>
    heated()
      .heating(t0 + 22 * day, { circuit: '1', flowC: a })
      .heating(t0 + 22 * day + apartHours * hour, { circuit: '2', flowC: b })
  it.each([
    ['8 K', circuits(25, 33), 'none'],
    ['8.5 K', circuits(25, 33.5), 'act'],
    ['8.5 K, read half a day apart', circuits(25, 33.5, 12), 'none'],
    [
      '8.5 K with a movement joint between',
      circuits(25, 33.5).note('joint-formed', t0, { joint: 'movement', fromX: 2, fromY: 0, toX: 2, toY: 4 }),
      'none',
    ],
    ['circuits not named', flows(heated(), 22, 25, 40), 'none'],
  ])('HEAT-3: %s', (_, story, expected) => {
    expect(outcome('A33', story, t0 + 30 * day)).toBe(expected)
  })

  it.each([
    ['10 K a day', flows(heated(), 30, 45, 35, 25), 'none'],
    ['11 K a day', flows(heated(), 30, 45, 34), 'watch'],
    [
      'turned off at 45 °C',
      flows(heated(), 30, 45).heating(t0 + 31 * day, { state: 'off', flowC: undefined }),
      'watch',
    ],
    [
      'turned off at 30 °C',
      flows(heated(), 30, 30).heating(t0 + 31 * day, { state: 'off', flowC: undefined }),
      'none',
    ],
  ])('HEAT-4: %s', (_, story, expected) => {
    expect(outcome('A34', story, t0 + 40 * day)).toBe(expected)
  })
})

describe('A35 dried by force', () => {
  const cured = () =>
    storyOf()
      .finished(t0)
      .sheetOn(t0 + hour)
      .sheetOff(t0 + 7 * day + hour)
  const on = (
    story: StoryBuilder,
    what: 'dehumidifier' | 'electric heater' | 'fan',
    from: number,
    until?: number,
  ) => {
    story.note('protection-on', t0 + from * day, { what })
    return until === undefined ? story : story.note('protection-off', t0 + until * day, { what })
  }
  it.each([
    ['dehumidifier under the sheet', on(cured(), 'dehumidifier', 3), 'stop ended'],
    ['dehumidifier 6 days after curing', on(cured(), 'dehumidifier', 13, 14), 'stop ended'],
    [
      'dehumidifier on day 15 in mild air',
      on(cured(), 'dehumidifier', 15).air(t0 + 16 * day, { airC: 20, rhPercent: 50 }),
      'none',
    ],
    [
      'dehumidifier on day 15, air at 35 %',
      on(cured(), 'dehumidifier', 15).air(t0 + 16 * day, { airC: 20, rhPercent: 35 }),
      'none',
    ],
    [
      'dehumidifier on day 15, air at 34 %',
      on(cured(), 'dehumidifier', 15).air(t0 + 16 * day, { airC: 20, rhPercent: 34 }),
      'watch ended',
    ],
    [
      'fan on day 20, air at 26 °C',
      on(cured(), 'fan', 20).air(t0 + 21 * day, { airC: 26, rhPercent: 50 }),
      'watch ended',
    ],
    [
      'fan on day 30, air at 26 °C',
      on(cured(), 'fan', 30).air(t0 + 31 * day, { airC: 26, rhPercent: 50 }),
      'none',
    ],
    [
      'electric heat under the sheet keeps frost out',
      on(cured(), 'electric heater', 1, 5).air(t0 + 2 * day, { airC: 12 }),
      'none',
    ],
    [
      'hot air over the open screed',
      on(cured(), 'electric heater', 8).air(t0 + 9 * day, { airC: 27 }),
      'stop ended',
    ],
  ])('HEAT-5: %s', (_, story, expected) => {
    expect(outcome('A35', story, t0 + 40 * day)).toBe(expected)
  })
  it('HEAT-5: stands while it runs in the days that count', () => {
    expect(outcome('A35', on(cured(), 'dehumidifier', 3), t0 + 13 * day)).toBe('stop')
  })
})

describe('A36 unflued burner, A37 condensation', () => {
  const burner = (from: number, what: 'unflued heater' | 'flued heater' = 'unflued heater') =>
    storyOf()
      .finished(t0)
      .note('protection-on', t0 + from * day, { what })
  it.each([
    ['on day 0', burner(0), 'stop'],
    ['on day 2.9', burner(2.9), 'stop'],
    ['on day 3', burner(3), 'none'],
    ['flued', burner(0, 'flued heater'), 'none'],
    ['taken out', burner(0).note('protection-off', t0 + hour, { what: 'unflued heater' }), 'stop ended'],
    [
      'only planned',
      storyOf().finished(t0).note('protection-on', t0, { what: 'unflued heater', planned: true }),
      'none',
    ],
  ])('HEAT-6: %s', (_, story, expected) => {
    expect(outcome('A36', story, t0 + 4 * day)).toBe(expected)
  })

  // Dew point at 20 °C and 65 %: 13.22 °C (Magnus, worked by hand).
  const surface = (surfaceC?: number) =>
    storyOf()
      .finished(t0)
      .air(t0 + 10 * day, { airC: 20, rhPercent: 65, surfaceC })
  it.each([
    ['1.08 K above the dew point', surface(14.3), 'none'],
    ['0.98 K above it', surface(14.2), 'watch'],
    ['surface not read', surface(), 'none'],
    ['dry again', surface(13).air(t0 + 11 * day, { airC: 20, rhPercent: 50, surfaceC: 18 }), 'watch ended'],
    [
      'under the sheet',
      storyOf()
        .finished(t0)
        .sheetOn(t0)
        .air(t0 + day, { airC: 20, rhPercent: 90, surfaceC: 15 }),
      'none',
    ],
  ])('HEAT-7: %s', (_, story, expected) => {
    expect(outcome('A37', story, t0 + 12 * day)).toBe(expected)
  })
})
