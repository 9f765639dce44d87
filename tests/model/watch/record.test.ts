// 24 h, 7 days, 6 equal readings: our judgement.
import { describe, expect, it } from 'vitest'
import { day, hour, instant, minute, type StoryBuilder, storyOf } from '../../support/story.ts'
import { hourly, outcome, raised } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const placed = { areaNote: 'Axis A to B' }

describe('A47 gap in the record', () => {
  const readEvery = (hours: number, count: number) =>
    Array.from({ length: count }).reduce<StoryBuilder>(
      (story, _, i) => story.air(t0 + (i + 1) * hours * hour, { airC: 12 + (i % 3) }),
      storyOf().finished(t0),
    )
  it.each([
    ['read every 24 h', readEvery(24, 7), t0 + 7 * day, 'none'],
    ['read every 24 h 6 min', readEvery(24.1, 2), t0 + 2 * day, 'watch ended'],
    ['not read for a day', storyOf().finished(t0), t0 + day + minute, 'watch'],
    ['not read for 23 h', storyOf().finished(t0), t0 + 23 * hour, 'none'],
    ['after the first week', readEvery(12, 14), t0 + 20 * day, 'none'],
    ['not laid', storyOf(), t0, 'none'],
  ])('RECORD-1: %s', (_, story, asOf, expected) => {
    expect(outcome('A47', story, asOf)).toBe(expected)
  })

  it.each([
    [
      'air at 4 °C and nobody in the screed',
      storyOf()
        .finished(t0)
        .air(t0 + 12 * hour, { airC: 4 }),
      'watch',
    ],
    [
      'air at 5 °C',
      storyOf()
        .finished(t0)
        .air(t0 + 12 * hour, { airC: 5 }),
      'none',
    ],
    [
      'air at 4 °C and the screed read',
      storyOf()
        .finished(t0)
        .air(t0 + 12 * hour, { airC: 4 })
        .screedC(t0 + 13 * hour, 9),
      'none',
    ],
    [
      'batches with a place and a moisture',
      storyOf()
        .batch(t0 - hour, placed)
        .finished(t0),
      'none',
    ],
    [
      'a batch without a place',
      storyOf()
        .batch(t0 - hour)
        .finished(t0),
      'watch',
    ],
    [
      'a batch without a moisture',
      storyOf()
        .batch(t0 - hour, { ...placed, sandMoisturePercent: undefined })
        .finished(t0),
      'watch',
    ],
  ])('RECORD-2: %s', (_, story, expected) => {
    expect(outcome('A47', story, t0 + 20 * hour)).toBe(expected)
  })

  it('RECORD-2: a reading written down late closes the gap', () => {
    const story = storyOf()
      .finished(t0)
      .air(t0 + 12 * hour, { airC: 12 }, { recordedAt: t0 + 3 * day })
    expect(outcome('A47', story, t0 + 30 * hour)).toBe('none')
    expect(outcome('A47', story, t0 + 30 * hour, { knownAt: t0 + 30 * hour })).toBe('watch')
  })
})

describe('A48 too good to be true', () => {
  const readings = (count: number, value: (i: number) => number, at: (i: number) => number) =>
    Array.from({ length: count }).reduce<StoryBuilder>(
      (story, _, i) => story.air(at(i), { airC: value(i), rhPercent: 55 }),
      storyOf().finished(t0),
    )
  const unevenly = (i: number) => t0 + i * 9.3 * hour
  it.each([
    ['five equal readings', readings(5, () => 14.2, unevenly), 'none'],
    ['six equal readings', readings(6, () => 14.2, unevenly), 'watch'],
    ['six readings that differ', readings(6, (i) => 14 + i / 10, unevenly), 'none'],
    [
      'six readings at the very same minute',
      readings(
        6,
        (i) => 14 + i / 10,
        (i) => t0 + i * day,
      ),
      'watch',
    ],
    ['six equal thicknesses', storyOf().thickness(t0, 70, 70, 70, 70, 70, 70), 'watch'],
    ['five equal thicknesses', storyOf().thickness(t0, 70, 70, 70, 70, 70), 'none'],
    ['a logger flat for three days', storyOf().logger(t0, { airC: hourly(72, 20) }), 'watch'],
    ['a logger that moves', storyOf().logger(t0, { airC: hourly(72, (i) => 20 + (i % 3) / 10) }), 'none'],
  ])('RECORD-3: %s', (_, story, expected) => {
    expect(outcome('A48', story, t0 + 8 * day)).toBe(expected)
  })

  it('RECORD-3: a week written down on one evening asks a question, from that evening on', () => {
    const evening = t0 + 7 * day
    const story = storyOf()
    for (let i = 0; i < 8; i++) {
      story.air(t0 + i * 19 * hour, { airC: 10 + i }, { recordedAt: evening + i * minute })
    }
    expect(raised('A48', story, evening)).toHaveLength(0)
    expect(raised('A48', story, evening + hour)).toHaveLength(1)
    expect(raised('A48', story, evening + hour)[0]!.whatToDo).toContain('not an accusation')
  })
})
