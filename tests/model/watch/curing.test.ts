// ≥ 7 days, 4 the least (BS 8204-1, British learned-society guidance; quoted second-hand); cold hours do not count (common
// practice); 2 h, 6 h, 24 h, 1 h, 72 h: our judgement.
import { describe, expect, it } from 'vitest'
import { effectiveRules } from '#model/rules/index.ts'
import { day, hour, instant, minute, storyOf } from '../../support/story.ts'
import { hourly, outcome, raised } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const finished = () => storyOf().finished(t0)
const dry = { surfaceC: 22, airC: 24, rhPercent: 40, airSpeedMs: 15 / 3.6 }

describe('A24 sheet late', () => {
  it.each([
    ['covered after exactly 2 h', finished().sheetOn(t0 + 2 * hour), 'none'],
    ['covered after 2 h 1 min', finished().sheetOn(t0 + 2 * hour + minute), 'watch ended'],
    ['covered after exactly 6 h', finished().sheetOn(t0 + 6 * hour), 'watch ended'],
    ['covered after 6 h 1 min', finished().sheetOn(t0 + 6 * hour + minute), 'act ended'],
    ['half covered after 1 h', finished().sheetOn(t0 + hour, { coveredPercent: 94 }), 'act'],
    ['not covered', finished(), 'act'],
    [
      'dry and windy, covered after 70 min: half the time',
      finished()
        .air(t0 + 20 * minute, dry)
        .sheetOn(t0 + 70 * minute),
      'watch ended',
    ],
    [
      'dry and windy, covered after 60 min',
      finished()
        .air(t0 + 20 * minute, dry)
        .sheetOn(t0 + 60 * minute),
      'none',
    ],
    [
      'dry and windy, covered after 3 h 1 min',
      finished()
        .air(t0 + 20 * minute, dry)
        .sheetOn(t0 + 181 * minute),
      'act ended',
    ],
    ['calcium sulfate is not covered', storyOf({ bay: { screed: 'calcium sulfate' } }).finished(t0), 'none'],
  ])('CURE-1: %s', (_, story, expected) => {
    expect(outcome('A24', story, t0 + 8 * hour)).toBe(expected)
  })

  it('CURE-1: just before and at the limit while it lies open', () => {
    expect(outcome('A24', finished(), t0 + 2 * hour - 1)).toBe('none')
    expect(outcome('A24', finished(), t0 + 2 * hour)).toBe('watch')
  })

  it('CURE-1: where the finish was not recorded, the last lift stands for it and the alert says so', () => {
    const story = storyOf().lift(1, t0 - hour, t0)
    const [alert] = raised('A24', story, t0 + 3 * hour)
    expect(alert!.evidence[0]).toMatchObject({ value: 'not recorded; taken from the last lift' })
  })
})

describe('A25 not cured', () => {
  it.each([
    ['covered after 23.9 h', finished().sheetOn(t0 + 23.9 * hour), 'none'],
    ['covered after 24 h', finished().sheetOn(t0 + 24 * hour), 'act NC'],
    ['never covered', finished(), 'act NC'],
  ])('CURE-2: %s', (_, story, expected) => {
    expect(outcome('A25', story, t0 + 2 * day)).toBe(expected)
  })

  it('CURE-2: a sheet that is recorded late, but lay in time, withdraws it', () => {
    const story = finished().note(
      'sheet-on',
      t0 + hour,
      { material: 'polyethylene', coveredPercent: 100, edgesHeld: true },
      { recordedAt: t0 + 5 * day },
    )
    expect(outcome('A25', story, t0 + 6 * day)).toBe('none')
    expect(outcome('A25', story, t0 + 6 * day, { knownAt: t0 + 2 * day })).toBe('act NC')
  })

  it('CURE-2: withdrawing the finish withdraws it', () => {
    const story = finished()
    story.withdraw(story.last, t0 + 3 * day)
    expect(outcome('A25', story, t0 + 4 * day)).toBe('none')
  })
})

describe('A26 cured too short', () => {
  const warm = (hours = 24 * 9) => finished().logger(t0, { screedC: hourly(hours, 15) })
  it.each([
    [
      '7 days',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 7 * day),
      'none',
    ],
    [
      '7 days less a minute',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 7 * day - minute),
      'watch',
    ],
    [
      '4 days',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 4 * day),
      'watch',
    ],
    [
      '4 days less a minute',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 4 * day - minute),
      'act NC',
    ],
    ['still lying on day 5', warm().sheetOn(t0), 'none'],
    ['never covered: that is another alert', warm(), 'none'],
    [
      '7 days, temperature never read',
      finished()
        .sheetOn(t0)
        .sheetOff(t0 + 7 * day),
      'not proven',
    ],
    [
      '5 days, temperature never read: short whatever it was',
      finished()
        .sheetOn(t0)
        .sheetOff(t0 + 5 * day),
      'watch',
    ],
    [
      'lifted on day 5 and laid again within the hours that can be made good',
      warm()
        .sheetOn(t0)
        .sheetOff(t0 + 5 * day, 'lifted')
        .sheetOn(t0 + 6 * day)
        .sheetOff(t0 + 8 * day),
      'none',
    ],
  ])('CURE-3: %s', (_, story, expected) => {
    expect(outcome('A26', story, t0 + 9 * day)).toBe(expected)
  })

  it('CURE-3: hours below 5 °C do not count: 7 days with 24 cold hours are 6', () => {
    const screedC = hourly(24 * 8, (i) => (i >= 48 && i <= 72 ? 4.9 : 10))
    const story = finished()
      .logger(t0, { screedC })
      .sheetOn(t0)
      .sheetOff(t0 + 7 * day)
    const [alert] = raised('A26', story, t0 + 8 * day)
    expect(alert).toMatchObject({ severity: 'watch' })
    expect(alert!.evidence).toContainEqual(
      expect.objectContaining({ what: 'Of these too cold to count', value: 26 }),
    )
  })

  it('CURE-3: exactly 5.0 °C counts', () => {
    const story = finished()
      .logger(t0, { screedC: hourly(24 * 8, 5) })
      .sheetOn(t0)
      .sheetOff(t0 + 7 * day)
    expect(outcome('A26', story, t0 + 8 * day)).toBe('none')
  })

  it('CURE-3: where nobody measured in the screed, the air of the room stands in', () => {
    const story = finished()
      .logger(t0, { airC: hourly(24 * 8, 3) })
      .sheetOn(t0)
      .sheetOff(t0 + 7 * day)
    expect(outcome('A26', story, t0 + 8 * day)).toBe('act NC')
  })

  it('CURE-3: a sheet laid again after more than 72 h open makes nothing good', () => {
    const story = warm(24 * 16)
      .sheetOn(t0)
      .sheetOff(t0 + 3 * day, 'blown off')
      .sheetOn(t0 + 7 * day)
    expect(outcome('A26', story, t0 + 14 * day)).toBe('act NC')
  })

  it('CURE-3: where the contract takes 4 days, 4 days are enough', () => {
    const rules = effectiveRules('british', { cureDays: 'four' })
    const story = warm()
      .sheetOn(t0)
      .sheetOff(t0 + 4 * day)
    expect(outcome('A26', story, t0 + 9 * day, { rules })).toBe('none')
  })
})

describe('A27 sheet off', () => {
  const covered = () => finished().sheetOn(t0 + hour)
  it.each([
    [
      'off for exactly 1 h on day 2',
      covered()
        .sheetOff(t0 + 2 * day, 'lifted')
        .sheetOn(t0 + 2 * day + hour),
      'none',
    ],
    [
      'off for 61 min on day 2',
      covered()
        .sheetOff(t0 + 2 * day, 'lifted')
        .sheetOn(t0 + 2 * day + 61 * minute),
      'act ended',
    ],
    ['off since day 2', covered().sheetOff(t0 + 2 * day, 'blown off'), 'act'],
    ['off for 3 h on day 5', covered().sheetOff(t0 + 5 * day, 'lifted'), 'none'],
  ])('CURE-4: %s', (_, story, expected) => {
    expect(outcome('A27', story, t0 + 2.5 * day)).toBe(expected)
  })

  it('CURE-4: two openings are two alerts, each with its own id', () => {
    const story = covered()
      .sheetOff(t0 + day, 'lifted')
      .sheetOn(t0 + day + 2 * hour)
      .sheetOff(t0 + 2 * day, 'lifted')
      .sheetOn(t0 + 2 * day + 2 * hour)
    const ids = raised('A27', story, t0 + 3 * day).map(({ id }) => id)
    expect(new Set(ids).size).toBe(2)
  })
})
