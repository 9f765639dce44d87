// Thicknesses 25, 50, 65, 75 mm and two layers above 50 mm (BS 8204-1), cover 30 mm and leak test (EN 1264-4): quoted
// second-hand; calcium sulfate minima: from memory; base ≥ 2 °C, edge strip: common practice; 45 and 20 min: our judgement.
import { describe, expect, it } from 'vitest'
import type { BodyOf } from '#model/record/kinds.ts'
import { day, hour, instant, minute, storyOf } from '../../support/story.ts'
import { outcome } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const plannedFor = new Date(t0 - 3 * hour).toISOString()
const planned = (setting: Parameters<typeof storyOf>[0] = {}) =>
  storyOf({ ...setting, bay: { plannedFor, ...setting.bay } })
const survey = (body: Partial<BodyOf<'base-surveyed'>> = {}, setting = {}) =>
  planned(setting).note('base-surveyed', t0 - 5 * hour, {
    prepared: 'membrane',
    dry: true,
    clean: true,
    ...body,
  })
const bonded = { bay: { construction: 'bonded' as const, designThicknessMm: 35 } }
const slurryAt = (before: number) => new Date(t0 - before * minute).toISOString()

describe('A09 base', () => {
  it.each([
    ['clean and dry', survey(), 'none'],
    ['2.0 °C', survey({ baseC: 2 }), 'none'],
    ['1.9 °C', survey({ baseC: 1.9 }), 'stop'],
    ['standing water', survey({ dry: false }), 'stop'],
    ['dirty', survey({ clean: false }), 'stop'],
    ['bonded on a base that was only tamped', survey({ prepared: 'tamped' }, bonded), 'stop'],
    ['floating on a base that was only tamped', survey({ prepared: 'tamped' }), 'none'],
    ['nobody surveyed it', planned(), 'none'],
  ])('LAY-1: before the pour, %s', (_, story, expected) => {
    expect(outcome('A09', story, t0 - 4 * hour)).toBe(expected)
  })

  it('LAY-1: a second survey ends it; a pour without one makes it a non-conformance', () => {
    const dried = survey({ dry: false }).note('base-surveyed', t0 - 4 * hour, {
      prepared: 'membrane',
      dry: true,
      clean: true,
    })
    expect(outcome('A09', dried, t0 - 3.5 * hour)).toBe('stop ended')
    expect(outcome('A09', survey({ dry: false }).finished(t0), t0 + hour)).toBe('act NC')
  })

  it.each([
    [20, 'none'],
    [21, 'act NC'],
  ])('LAY-1: bonding slurry brushed %i min before laying began: %s', (before, expected) => {
    const body = { prepared: 'mechanically prepared', slurryAt: slurryAt(180 + before) } as const
    expect(outcome('A09', survey(body, bonded).finished(t0), t0 + hour)).toBe(expected)
  })
})

describe('A14 thick lift, A15 second lift', () => {
  const lifts = (gapMin: number, roughened?: boolean) =>
    storyOf()
      .lift(1, t0 - 3 * hour, t0 - 2 * hour, roughened === undefined ? {} : { roughened })
      .lift(2, t0 - 2 * hour + gapMin * minute, t0)
      .finished(t0)
  it.each([
    [
      '70 mm in one lift',
      storyOf()
        .lift(1, t0 - hour, t0, { thicknessMm: 70 })
        .finished(t0),
      'act',
    ],
    [
      '50 mm in one lift',
      storyOf()
        .lift(1, t0 - hour, t0, { thicknessMm: 50 })
        .finished(t0),
      'none',
    ],
    [
      'measured 51 mm in one lift',
      storyOf()
        .lift(1, t0 - hour, t0, { thicknessMm: 50 })
        .thickness(t0, 51)
        .finished(t0),
      'act',
    ],
    ['two lifts', lifts(10), 'none'],
    ['no lift recorded', storyOf().finished(t0).thickness(t0, 70), 'none'],
    [
      'calcium sulfate flows in one go',
      storyOf({ bay: { screed: 'calcium sulfate' } })
        .lift(1, t0 - hour, t0, { thicknessMm: 60 })
        .finished(t0),
      'none',
    ],
  ])('LAY-2: %s', (_, story, expected) => {
    expect(outcome('A14', story, t0 + hour)).toBe(expected)
  })

  it.each([
    ['45 min between', lifts(45, true), 'none'],
    ['46 min between', lifts(46, true), 'act'],
    ['not roughened', lifts(10, false), 'act'],
    ['nobody said whether it was roughened', lifts(10), 'none'],
  ])('LAY-3: %s', (_, story, expected) => {
    expect(outcome('A15', story, t0 + hour)).toBe(expected)
  })

  it('LAY-3: counts while the second lift has not begun', () => {
    const story = storyOf().lift(1, t0 - 2 * hour, t0 - hour, { thicknessMm: 35 })
    expect(outcome('A15', story, t0 - hour + 45 * minute)).toBe('none')
    expect(outcome('A15', story, t0 - hour + 46 * minute)).toBe('act')
  })
})

describe('A16 too thin, A17 bonded too thick, A18 little cover', () => {
  it.each([
    ['bonded cement', 'cement-sand', 'bonded', 'light', 25],
    ['unbonded cement', 'cement-sand', 'unbonded', 'light', 50],
    ['floating cement, light', 'cement-sand', 'floating', 'light', 65],
    ['floating cement, heavier', 'cement-sand', 'floating', 'other', 75],
    ['bonded calcium sulfate', 'calcium sulfate', 'bonded', 'light', 25],
    ['unbonded calcium sulfate', 'calcium sulfate', 'unbonded', 'light', 30],
    ['floating calcium sulfate, light', 'calcium sulfate', 'floating', 'light', 35],
    ['floating calcium sulfate, heavier', 'calcium sulfate', 'floating', 'other', 40],
  ] as const)('LAY-4: %s', (_, screed, construction, loading, leastMm) => {
    const bay = () => storyOf({ bay: { screed, construction }, zone: { loading } })
    expect(outcome('A16', bay().finished(t0).thickness(t0, 90, leastMm), t0 + hour)).toBe('none')
    expect(
      outcome(
        'A16',
        bay()
          .finished(t0)
          .thickness(t0, 90, leastMm - 0.5),
        t0 + hour,
      ),
    ).toBe('act NC')
    expect(outcome('A16', bay().thickness(t0, leastMm - 0.5), t0 + hour)).toBe('stop')
  })

  it('LAY-4: a high spot that leaves too little stops the pour', () => {
    expect(outcome('A16', survey({ highSpotMm: 5 }), t0 - 4 * hour)).toBe('none')
    expect(outcome('A16', survey({ highSpotMm: 6 }), t0 - 4 * hour)).toBe('stop')
  })

  it('LAY-4: only the maker knows how thin a fast-drying screed may be', () => {
    const fast = (minThicknessMm?: number) =>
      storyOf({ bay: { screed: 'fast drying', minThicknessMm } })
        .finished(t0)
        .thickness(t0, 40)
    expect(outcome('A16', fast(), t0 + hour)).toBe('none')
    expect(outcome('A16', fast(45), t0 + hour)).toBe('act NC')
  })

  it.each([
    ['bonded, 40 mm', storyOf(bonded).finished(t0).thickness(t0, 40), 'none'],
    ['bonded, 41 mm', storyOf(bonded).finished(t0).thickness(t0, 41), 'watch'],
    ['floating, 70 mm', storyOf().finished(t0).thickness(t0, 70), 'none'],
  ])('LAY-5: %s', (_, story, expected) => {
    expect(outcome('A17', story, t0 + hour)).toBe(expected)
  })

  it.each([
    [true, 30, 'none'],
    [true, 29, 'act'],
    [true, undefined, 'none'],
    [false, 25, 'none'],
    [false, 24, 'act'],
  ] as const)('LAY-6: heated %s, cover %s mm: %s', (heated, pipeCoverMm, expected) => {
    expect(outcome('A18', planned({ zone: { heated }, bay: { pipeCoverMm } }), t0 - 4 * hour)).toBe(expected)
  })
})

describe('A19 edge strip, A23 pressure test', () => {
  const strip = (complete: boolean) => ({
    thicknessMm: 10,
    complete,
    ...(complete ? {} : { missingAt: 'north door' }),
  })
  it.each([
    ['not recorded two days before', planned(), t0 - 2 * day, 'none'],
    ['not recorded on the day', planned(), t0 - 4 * hour, 'stop'],
    ['complete', planned().note('edge-strip-fitted', t0 - day, strip(true)), t0 - 4 * hour, 'none'],
    ['missing at a door', planned().note('edge-strip-fitted', t0 - day, strip(false)), t0 - 4 * hour, 'stop'],
    [
      'missing, then fitted',
      planned()
        .note('edge-strip-fitted', t0 - day, strip(false))
        .note('edge-strip-fitted', t0 - 5 * hour, strip(true)),
      t0 - 4 * hour,
      'stop ended',
    ],
    [
      'laid with a gap',
      planned()
        .note('edge-strip-fitted', t0 - day, strip(false))
        .finished(t0),
      t0 + hour,
      'act NC',
    ],
    ['laid and never recorded', planned().finished(t0), t0 + hour, 'not proven'],
    ['bonded', planned(bonded), t0 - 4 * hour, 'none'],
  ])('LAY-7: %s', (_, story, asOf, expected) => {
    expect(outcome('A19', story, asOf)).toBe(expected)
  })

  const heated = { zone: { heated: true } }
  const test = (passed: boolean) => ({
    medium: 'water' as const,
    startBar: 5,
    endBar: passed ? 5 : 3.8,
    hours: 24,
    passed,
  })
  it.each([
    ['no test on the day', planned(heated), 'stop'],
    ['passed', planned(heated).note('pipes-pressure-tested', t0 - day, test(true)), 'none'],
    ['failed', planned(heated).note('pipes-pressure-tested', t0 - day, test(false)), 'stop'],
    [
      'failed, then passed',
      planned(heated)
        .note('pipes-pressure-tested', t0 - day, test(false))
        .note('pipes-pressure-tested', t0 - 6 * hour, test(true)),
      'none',
    ],
    ['no heating', planned(), 'none'],
  ])('LAY-8: %s', (_, story, expected) => {
    expect(outcome('A23', story, t0 - 4 * hour)).toBe(expected)
  })

  it.each([
    [4.8, 'none'],
    [4.6, 'stop'],
  ])('LAY-8: pressure from 5.0 to %s bar while it is laid: %s', (end, expected) => {
    const story = planned(heated)
      .note('pipes-pressure-tested', t0 - day, test(true))
      .finished(t0)
      .heating(t0 - 3 * hour, { state: 'off', flowC: undefined, pressureBar: 5 })
      .heating(t0 + hour, { state: 'off', flowC: undefined, pressureBar: end })
    expect(outcome('A23', story, t0 + 2 * hour)).toBe(expected)
  })
})
