// 40 m², 8 m, 2 : 1 (British tiling trade body, quoted second-hand), 300 m² for heated calcium sulfate and 50 mm above a base
// joint (common practice), 0.5 mm, 48 h and a quarter of the depth (our judgement).
import { describe, expect, it } from 'vitest'
import { day, hour, instant, storyOf } from '../../support/story.ts'
import { outcome } from './support.ts'

const t0 = instant('2026-03-02T14:00:00Z')
const plannedFor = new Date(t0 - 3 * hour).toISOString()
const rect = (w: number, h: number) => [
  { x: 0, y: 0 },
  { x: w, y: 0 },
  { x: w, y: h },
  { x: 0, y: h },
]
const lShape = [
  { x: 0, y: 0 },
  { x: 6, y: 0 },
  { x: 6, y: 3 },
  { x: 3, y: 3 },
  { x: 3, y: 5 },
  { x: 0, y: 5 },
]
const bay = (
  outline: { x: number; y: number }[],
  zone = {},
  screed: 'cement-sand' | 'calcium sulfate' = 'cement-sand',
) => storyOf({ bay: { outline, plannedFor, screed }, zone })
const tiled = { covering: 'ceramic tile' as const }
const heated = { heated: true }

describe('A20 bay shape', () => {
  it.each([
    ['heated 8 × 5 m', bay(rect(8, 5), heated), 'none'],
    ['heated 8.1 × 4.9 m: side', bay(rect(8.1, 4.9), heated), 'act'],
    ['heated 6.4 × 6.4 m: 41 m²', bay(rect(6.4, 6.4), heated), 'act'],
    ['heated 6 × 3 m: 2 : 1', bay(rect(6, 3), heated), 'none'],
    ['heated 6 × 2.9 m', bay(rect(6, 2.9), heated), 'act'],
    ['tiled, unheated, 9 × 4.4 m: ratio', bay(rect(9, 4.4), tiled), 'act'],
    ['heated L without an inducer', bay(lShape, heated), 'act'],
    [
      'heated L with an inducer at the corner',
      bay(lShape, heated).note('joint-formed', t0, { joint: 'inducer', fromX: 3, fromY: 3, toX: 0, toY: 3 }),
      'none',
    ],
    ['unheated under vinyl, 12 × 10 m: worth a look', bay(rect(12, 10)), 'watch'],
    ['unheated under vinyl, 5 × 4 m', bay(rect(5, 4)), 'none'],
    ['heated calcium sulfate, 15 × 20 m', bay(rect(15, 20), heated, 'calcium sulfate'), 'none'],
    ['heated calcium sulfate, 15.1 × 20 m', bay(rect(15.1, 20), heated, 'calcium sulfate'), 'act'],
  ])('JOINT-1: %s', (_, story, expected) => {
    expect(outcome('A20', story, t0 + hour)).toBe(expected)
  })

  it('JOINT-1: an outline that crosses itself cannot be judged, and does not silence the other rules', () => {
    const crossed = [rect(5, 4)[0]!, rect(5, 4)[2]!, rect(5, 4)[1]!, rect(5, 4)[3]!]
    const story = bay(crossed, heated).finished(t0)
    expect(outcome('A20', story, t0 + 3 * hour)).toBe('not proven')
    expect(outcome('A24', story, t0 + 3 * hour)).toBe('watch')
  })
})

describe('A21 base joint', () => {
  const over = (widthMm: number | undefined, x = 2.5) =>
    storyOf({
      bay: { plannedFor },
      floor: { baseJoints: [{ fromX: x, fromY: -5, toX: x, toY: 9, widthMm }] },
    })
  const mirrored = (x: number) =>
    over(3).note('joint-formed', t0, { joint: 'base', fromX: x, fromY: 0, toX: x, toY: 4 })
  it.each([
    ['3 mm joint, nothing above', over(3), 'stop'],
    ['width not known', over(undefined), 'stop'],
    ['0.5 mm crack', over(0.5), 'none'],
    ['0.6 mm crack', over(0.6), 'stop'],
    ['joint 50 mm beside it', mirrored(2.55), 'none'],
    ['joint 60 mm beside it', mirrored(2.56), 'stop'],
    ['along the edge of the bay', over(3, 5), 'none'],
    ['outside the bay', over(3, 7), 'none'],
  ])('JOINT-2: %s', (_, story, expected) => {
    expect(outcome('A21', story, t0 + hour)).toBe(expected)
  })

  it('JOINT-2: is not asked for a week before the pour', () => {
    expect(outcome('A21', over(3), t0 - 7 * day)).toBe('none')
  })
})

describe('A22 inducer', () => {
  const cut = (hours: number, depthMm?: number) =>
    storyOf()
      .finished(t0)
      .note('joint-formed', t0 + hours * hour, {
        joint: 'inducer',
        fromX: 2,
        fromY: 0,
        toX: 2,
        toY: 4,
        depthMm,
      })
  it.each([
    ['48 h, a quarter of 70 mm', cut(48, 17.5), 'none'],
    ['48.1 h', cut(48.1, 17.5), 'act'],
    ['17 mm of 70', cut(10, 17), 'act'],
    ['depth not recorded', cut(10), 'none'],
    [
      'a movement joint is another matter',
      storyOf()
        .finished(t0)
        .note('joint-formed', t0 + 90 * hour, { joint: 'movement', fromX: 2, fromY: 0, toX: 2, toY: 4 }),
      'none',
    ],
  ])('JOINT-3: %s', (_, story, expected) => {
    expect(outcome('A22', story, t0 + 5 * day)).toBe(expected)
  })
})
