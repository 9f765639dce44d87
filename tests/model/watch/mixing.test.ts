// 1 : 3 to 1 : 4.5 by mass, forced-action mixer, no re-tempering (BS 8204-1, quoted second-hand); bands beyond, w/c, 2 min,
// 60 min at 20 °C with × 0.7 and × 1.3: our judgement.
// Worked check: 200 kg damp sand at 6 % is 188.7 kg dry; with 50 kg cement 3.77 and, with 10 kg water, w/c 0.43.
import { describe, expect, it } from 'vitest'
import { entriesOf } from '#model/record/story.ts'
import { hour, instant, minute, storyOf } from '../../support/story.ts'
import { outcome, raised } from './support.ts'

const start = instant('2026-03-02T08:00:00Z')
const later = start + 2 * hour
/** Batches with so much dry sand for one part of cement, one every 10 minutes. */
const ratios = (...perCement: number[]) =>
  perCement.reduce(
    (story, ratio, i) =>
      story.batch(start + i * 10 * minute, { cementKg: 50, dampSandKg: 50 * ratio, sandMoisturePercent: 0 }),
    storyOf(),
  )
const wc = (waterCement: number, body = {}) =>
  storyOf().batch(start, {
    cementKg: 100,
    dampSandKg: 400,
    sandMoisturePercent: 0,
    addedWaterKg: 100 * waterCement,
    ...body,
  })

describe('A10 mix ratio', () => {
  it.each([
    ['3.77 as in the worked check', storyOf().batch(start), 'none'],
    ['4.5', ratios(4.5), 'none'],
    ['4.6', ratios(4.6), 'watch'],
    ['5.0', ratios(5), 'watch'],
    ['5.1', ratios(5.1), 'act'],
    ['5.1 twice in a row', ratios(5.1, 5.2), 'stop'],
    ['5.1, a good one, 5.1: two alerts, no stop', ratios(5.1, 4, 5.1), 'act, act'],
    ['3.0', ratios(3), 'none'],
    ['2.9', ratios(2.9), 'watch'],
    ['2.4', ratios(2.4), 'act'],
    ['2.4 twice in a row is rich, not lean', ratios(2.4, 2.4), 'act'],
    ['four lean batches in a row are one alert', ratios(4.7, 4.7, 4.7, 4.7), 'watch'],
    [
      'damp 4.4 with unknown moisture may be good',
      storyOf().batch(start, { dampSandKg: 220, sandMoisturePercent: undefined }),
      'none',
    ],
    [
      'damp 5.6 with unknown moisture is lean however wet',
      storyOf().batch(start, { dampSandKg: 280, sandMoisturePercent: undefined }),
      'act',
    ],
    [
      'calcium sulfate follows its maker',
      storyOf({ bay: { screed: 'calcium sulfate' } }).batch(start, { dampSandKg: 400 }),
      'none',
    ],
  ])('MIX-1: %s', (_, story, expected) => {
    expect(outcome('A10', story, later)).toBe(expected)
  })

  it('MIX-1: names the batch, its figure and its source', () => {
    const [alert] = raised('A10', ratios(4, 4.6), later)
    expect(alert!.evidence).toEqual([
      expect.objectContaining({ what: 'Batch 2: sand per cement', value: 4.6 }),
    ])
    expect(alert!.source).toContain('BS 8204-1')
    expect(alert!.source).toContain('quoted second-hand')
  })

  it('MIX-1: a corrected weight withdraws it', () => {
    const story = ratios(5.5)
    const [batch] = entriesOf(story.build(), 'batch-mixed')
    story.correct<'batch-mixed'>(story.last, later, { ...batch!.body, dampSandKg: 200 })
    expect(outcome('A10', story, later)).toBe('none')
    expect(outcome('A10', story, later, { knownAt: later - 1 })).toBe('act')
  })
})

describe('A11 water', () => {
  it.each([
    ['w/c 0.43 as in the worked check', storyOf().batch(start), 'none'],
    ['0.55', wc(0.55), 'none'],
    ['0.56', wc(0.56), 'watch'],
    ['0.65', wc(0.65), 'watch'],
    ['0.66', wc(0.66), 'act'],
    ['0.35', wc(0.35), 'none'],
    ['0.34', wc(0.34), 'watch'],
    ['0.29', wc(0.29), 'act'],
    ['0.43 but the squeeze test is wet', wc(0.43, { squeeze: 'wet' }), 'watch'],
    ['0.43 but it crumbles', wc(0.43, { squeeze: 'crumbles' }), 'watch'],
    ['no squeeze test', wc(0.43, { squeeze: undefined }), 'none'],
    ['moisture unknown, water alone 0.60', wc(0.6, { sandMoisturePercent: undefined }), 'watch'],
    ['moisture unknown, water alone 0.30: may be good', wc(0.3, { sandMoisturePercent: undefined }), 'none'],
  ])('MIX-2: %s', (_, story, expected) => {
    expect(outcome('A11', story, later)).toBe(expected)
  })
})

describe('A12 mixer', () => {
  it.each([
    ['forced action, 2 min', { mixingMinutes: 2 }, 'none'],
    ['forced action, 1.9 min', { mixingMinutes: 1.9 }, 'act'],
    ['time not written', { mixingMinutes: undefined }, 'none'],
    ['free-fall drum', { mixer: 'free fall' }, 'stop'],
    ['by hand', { mixer: 'hand' }, 'act'],
  ] as const)('MIX-3: %s', (_, body, expected) => {
    expect(outcome('A12', storyOf().batch(start, body), later)).toBe(expected)
  })
})

describe('A13 batch too old', () => {
  const laidAfter = (minutes: number, mixC = 20) =>
    storyOf().batch(start, { mixC, laidAt: new Date(start + minutes * minute).toISOString() })
  it.each([
    ['laid after 48 min at 20 °C', laidAfter(48), 'none'],
    ['laid after 49 min', laidAfter(49), 'watch ended'],
    ['laid after 60 min', laidAfter(60), 'watch ended'],
    ['laid after 61 min', laidAfter(61), 'stop'],
    ['at 25 °C the life is 42 min', laidAfter(43, 25), 'stop'],
    ['at 30 °C it is no shorter', laidAfter(41, 30), 'watch ended'],
    ['at 10 °C it is 78 min', laidAfter(61, 10), 'none'],
    ['at 5 °C it is no longer', laidAfter(79, 5), 'stop'],
    [
      'temperature not read: as at 20 °C',
      storyOf().batch(start, { mixC: undefined, laidAt: new Date(start + 61 * minute).toISOString() }),
      'stop',
    ],
  ])('MIX-4: %s', (_, story, expected) => {
    expect(outcome('A13', story, later)).toBe(expected)
  })

  it('MIX-4: counts while it waits, and does not know that it will be laid', () => {
    const story = laidAfter(70)
    expect(outcome('A13', story, start + 40 * minute)).toBe('none')
    expect(outcome('A13', story, start + 50 * minute)).toBe('watch')
    expect(outcome('A13', story, start + 65 * minute)).toBe('stop')
  })

  it('MIX-4: in a finished bay a batch without a laying time is a gap and not an old batch', () => {
    const story = storyOf()
      .batch(start, { mixC: 20 })
      .finished(start + 50 * minute)
    expect(outcome('A13', story, later)).toBe('none')
  })

  it('MIX-4: a delivery has the life on its ticket', () => {
    const story = storyOf().note('material-delivered', start, {
      ticket: 'T-1',
      material: 'ready-mixed screed',
      quantity: 3000,
      batchedAt: new Date(start - 60 * minute).toISOString(),
      workingLifeMin: 100,
    })
    expect(outcome('A13', story, start + 15 * minute)).toBe('none')
    expect(outcome('A13', story, start + 21 * minute)).toBe('watch')
    expect(outcome('A13', story, start + 41 * minute)).toBe('stop')
  })
})
