// 4 days (British learned-society guidance, quoted second-hand), 7 days and 28 days (common practice), 1 100 and 5 000 °C·h
// (our judgement). Table values: 72 h at 5 °C = 1 080 °C·h, 7 d at 20 °C = 5 040 °C·h (Nurse-Saul, from memory).
import { describe, expect, it } from 'vitest'
import { day, hour, instant, storyOf } from '../../support/story.ts'
import { hourly, outcome, raised } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const at = (tempC: number, days = 40) =>
  storyOf()
    .finished(t0)
    .logger(t0, { screedC: hourly(24 * days, tempC) })

describe('A28 walked on too early', () => {
  it.each([
    ['day 4 exactly, 20 °C', at(20).traffic(t0 + 4 * day), 'none'],
    ['an hour before day 4', at(20).traffic(t0 + 4 * day - hour), 'act'],
    ['day 5 at 0 °C: 1 200 °C·h', at(0).traffic(t0 + 5 * day), 'none'],
    ['day 4.5 at 0 °C: 1 080 °C·h', at(0).traffic(t0 + 4.5 * day), 'act'],
    ['on boards on day 2 is early all the same', at(20).traffic(t0 + 2 * day, { boards: true }), 'act'],
    [
      'day 5, temperature never read',
      storyOf()
        .finished(t0)
        .traffic(t0 + 5 * day),
      'not proven',
    ],
    [
      'calcium sulfate on day 4: only the days count',
      storyOf({ bay: { screed: 'calcium sulfate' } })
        .finished(t0)
        .traffic(t0 + 4 * day),
      'none',
    ],
    ['nobody seen', at(20), 'none'],
    ['before the finish', at(20).traffic(t0 - hour), 'none'],
  ])('TRAFFIC-1: %s', (_, story, expected) => {
    expect(outcome('A28', story, t0 + 10 * day)).toBe(expected)
  })

  it('TRAFFIC-1: three breaches are one alert, and the last asks for a new answer', () => {
    const story = at(20)
      .traffic(t0 + day)
      .traffic(t0 + 2 * day)
    const [first] = raised('A28', story, t0 + 2.5 * day)
    story.note('alert-answered', t0 + 2.5 * day, { alert: first!.id, answer: 'Barrier put back' })
    expect(raised('A28', story, t0 + 2.6 * day)[0]!.answeredBy).not.toBeNull()
    story.traffic(t0 + 3 * day)
    expect(raised('A28', story, t0 + 3.5 * day)).toMatchObject([{ id: first!.id, answeredBy: null }])
  })

  it('TRAFFIC-1: a report written down a week later shows it from then on', () => {
    const story = at(20).note(
      'traffic-seen',
      t0 + day,
      { traffic: 'foot', boards: false },
      { recordedAt: t0 + 8 * day },
    )
    expect(outcome('A28', story, t0 + 9 * day, { knownAt: t0 + 7 * day })).toBe('none')
    expect(outcome('A28', story, t0 + 9 * day)).toBe('act')
    story.withdraw(story.last, t0 + 9 * day)
    expect(outcome('A28', story, t0 + 10 * day)).toBe('none')
  })
})

describe('A29 point or wheel load too early', () => {
  const boards = { traffic: 'pallet truck', boards: true } as const
  it.each([
    ['pallet truck on boards, day 7.1 at 20 °C: 5 112 °C·h', at(20).traffic(t0 + 7.1 * day, boards), 'none'],
    ['pallet truck on boards, day 6.9', at(20).traffic(t0 + 6.9 * day, boards), 'act NC'],
    ['on boards, day 8 at 10 °C: 3 840 °C·h', at(10).traffic(t0 + 8 * day, boards), 'act NC'],
    [
      'on boards, day 8, temperature never read',
      storyOf()
        .finished(t0)
        .traffic(t0 + 8 * day, boards),
      'not proven',
    ],
    [
      'ladder without boards, day 27',
      at(20).traffic(t0 + 27 * day, { traffic: 'ladder', boards: false }),
      'act NC',
    ],
    [
      'ladder without boards, day 28',
      at(20).traffic(t0 + 28 * day, { traffic: 'ladder', boards: false }),
      'none',
    ],
    ['foot is another matter', at(20).traffic(t0 + 2 * day), 'none'],
    [
      'somebody standing on a point',
      at(20).traffic(t0 + 2 * day, { traffic: 'foot', contact: 'point' }),
      'act NC',
    ],
  ] as const)('TRAFFIC-2: %s', (_, story, expected) => {
    expect(outcome('A29', story, t0 + 35 * day)).toBe(expected)
  })
})

describe('A30 routes not boarded', () => {
  const uncovered = () =>
    at(20)
      .sheetOn(t0 + hour)
      .sheetOff(t0 + 8 * day)
  it.each([
    ['boards on at once', uncovered().note('protection-on', t0 + 8 * day + hour, { what: 'boards' }), 'none'],
    ['trades seen and no boards', uncovered().traffic(t0 + 10 * day), 'watch'],
    ['nobody wrote anything', uncovered(), 'not proven'],
    [
      'no traffic confirmed',
      uncovered().note('no-traffic-confirmed', t0 + 10 * day, { heldBy: 'Site office' }),
      'none',
    ],
    [
      'boards after three days',
      uncovered()
        .traffic(t0 + 9 * day)
        .note('protection-on', t0 + 11 * day, { what: 'boards' }),
      'watch ended',
    ],
    [
      'covering laid the day after',
      uncovered().note('covering-laid', t0 + 8.5 * day, { on: '2026-03-11', covering: 'Vinyl' }),
      'none',
    ],
    ['under the sheet', at(20).sheetOn(t0 + hour), 'none'],
  ] as const)('TRAFFIC-3: %s', (_, story, expected) => {
    expect(outcome('A30', story, t0 + 12 * day)).toBe(expected)
  })
})
