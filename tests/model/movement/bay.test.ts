import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { InputError } from '#model/errors.ts'
import { bayShape, checkBay, isInside, type Point } from '#model/movement/index.ts'
import { effectiveRules } from '#model/rules/index.ts'

const rules = effectiveRules('british')
const rectangle = (a: number, b: number): Point[] => [
  { x: 0, y: 0 },
  { x: a, y: 0 },
  { x: a, y: b },
  { x: 0, y: b },
]
const lShape: [number, number][] = [
  [0, 0],
  [6, 0],
  [6, 2],
  [2, 2],
  [2, 5],
  [0, 5],
]
const heated = { heated: true, covering: 'vinyl', screed: 'cement-sand', rules } as const
const unheated = { ...heated, heated: false } as const

const turned = (points: readonly Point[], angle: number, dx: number, dy: number) =>
  points.map(({ x, y }) => ({
    x: dx + x * Math.cos(angle) - y * Math.sin(angle),
    y: dy + x * Math.sin(angle) + y * Math.cos(angle),
  }))

describe('BAY: size and shape', () => {
  test('BAY-1: 40.0 m² with a side of 8.0 m passes; 8.1 m fails (tiling trade body, quoted second-hand)', () => {
    expect(checkBay({ ...heated, polygonM: rectangle(8, 5) }).verdict).toBe('pass')
    const long = checkBay({ ...heated, polygonM: rectangle(8.1, 4.5) })
    expect(long.verdict).toBe('fail')
    expect(long.findings.find(({ what }) => what === 'Longest side')).toMatchObject({
      value: 8.1,
      limit: { value: 8 },
    })
  })
  test('BAY-2: 40.1 m² fails on area alone', () => {
    expect(checkBay({ ...heated, polygonM: rectangle(8, 40.1 / 8) }).verdict).toBe('fail')
  })
  test('BAY-3: 2 to 1 passes, 2.05 to 1 fails', () => {
    expect(checkBay({ ...heated, polygonM: rectangle(6, 3) }).verdict).toBe('pass')
    expect(checkBay({ ...heated, polygonM: rectangle(6.15, 3) }).verdict).toBe('fail')
  })
  test('BAY-4: turning, moving, mirroring or renumbering a bay changes nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        fc.integer({ min: 0, max: 5 }),
        fc.boolean(),
        (angle, shift, start, mirrored) => {
          const points = lShape.map(([x, y]) => ({ x, y }))
          const order = [...points.slice(start), ...points.slice(0, start)]
          const moved = turned(mirrored ? order.toReversed() : order, angle, shift, -shift)
          const shape = bayShape(moved)
          expect(shape.areaM2).toBeCloseTo(18, 4)
          expect(shape.longestSideM).toBeCloseTo(bayShape(points).longestSideM, 4)
          expect(shape.ratio).toBeCloseTo(bayShape(points).ratio, 4)
          expect(shape.reentrantCorners).toHaveLength(1)
        },
      ),
    )
  })
  test('BAY-5: an 8 m side that is drawn at an angle is still 8 m', () => {
    for (let angle = 0; angle < 3; angle += 0.1) {
      expect(checkBay({ ...heated, polygonM: turned(rectangle(8, 5), angle, 123.4, -56.7) }).verdict).toBe(
        'pass',
      )
    }
  })
  test('BAY-6: a side split by extra points, or a notched edge, does not look shorter', () => {
    const split: [number, number][] = [
      [0, 0],
      [3, 0],
      [6, 0],
      [9, 0],
      [9, 5],
      [0, 5],
    ]
    const notched: [number, number][] = [
      [0, 0],
      [4, 0],
      [4, 0.1],
      [4.2, 0.1],
      [4.2, 0],
      [9, 0],
      [9, 5],
      [0, 5],
    ]
    expect(bayShape(split).longestSideM).toBe(9)
    expect(bayShape(notched).longestSideM).toBe(9)
  })
  test('BAY-7: slenderness is that of the smallest rectangle in any direction', () => {
    expect(bayShape(turned(rectangle(6, 2), 0.7, 0, 0)).ratio).toBeCloseTo(3, 6)
  })
  test('BAY-8: an inward corner fails when heated, until a joint or inducer starts from it', () => {
    expect(checkBay({ ...heated, polygonM: lShape }).verdict).toBe('fail')
    const joints = [{ fromX: 2, fromY: 2, toX: 0, toY: 2 }]
    expect(checkBay({ ...heated, polygonM: lShape, joints }).findings[3]).toMatchObject({ value: 0 })
    expect(checkBay({ ...heated, polygonM: rectangle(6, 4), reentrantCorners: 1 }).verdict).toBe('fail')
  })
  test('BAY-9: an unheated cement screed under a flexible covering has no size limit', () => {
    const result = checkBay({ ...unheated, polygonM: rectangle(20, 6) })
    expect(result.verdict).toBe('pass')
    expect(result.findings.slice(0, 3).map(({ limit }) => limit)).toEqual([null, null, null])
  })
  test('BAY-10: under tiles it has, and the choice between 10 m and 8 m is the project’s', () => {
    const tiled = { ...unheated, covering: 'ceramic tile', polygonM: rectangle(9, 4.5) } as const
    expect(checkBay({ ...tiled, rules: effectiveRules('british', { tileSide: 'eight' }) }).verdict).toBe(
      'fail',
    )
    expect(checkBay({ ...tiled, polygonM: rectangle(8.9, 4.45) }).verdict).toBe('pass')
    expect(
      checkBay({
        ...tiled,
        polygonM: rectangle(8.9, 4.45),
        rules: effectiveRules('british', { tileSide: 'eight' }),
      }).verdict,
    ).toBe('fail')
  })
  test('BAY-11: without a covering an unheated bay is not known', () => {
    expect(checkBay({ ...unheated, covering: null, polygonM: rectangle(5, 4) }).verdict).toBe('not known')
    expect(checkBay({ ...heated, covering: null, polygonM: rectangle(5, 4) }).verdict).toBe('pass')
  })
  test('BAY-12: calcium sulfate: 300 m² heated, 1000 m² and 30 m unheated (trade)', () => {
    const flowing = { ...heated, screed: 'calcium sulfate' } as const
    expect(checkBay({ ...flowing, polygonM: rectangle(20, 15) }).verdict).toBe('pass')
    expect(checkBay({ ...flowing, polygonM: rectangle(20, 15.1) }).verdict).toBe('fail')
    expect(checkBay({ ...flowing, heated: false, polygonM: rectangle(31, 15) }).verdict).toBe('fail')
  })
})

describe('BAY: joints of the base and edges of heating zones', () => {
  const across = { fromX: 3, fromY: -1, toX: 3, toY: 6 }
  const bay = { ...unheated, polygonM: rectangle(6, 5) }

  test('BAY-13: a base joint that crosses without a joint above it fails, with the length that is bare', () => {
    const result = checkBay({ ...bay, baseJoints: [across] })
    expect(result.verdict).toBe('fail')
    expect(result.findings.at(-1)?.value).toBeCloseTo(4.9, 1)
  })
  test('BAY-14: a joint within 50 mm mirrors it, one at 60 mm does not (common practice)', () => {
    const jointAt = (x: number) => [{ fromX: x, fromY: 0, toX: x, toY: 5 }]
    expect(checkBay({ ...bay, baseJoints: [across], joints: jointAt(3.05) }).verdict).toBe('pass')
    expect(checkBay({ ...bay, baseJoints: [across], joints: jointAt(3.06) }).verdict).toBe('fail')
  })
  test('BAY-15: a joint over half the length leaves the other half bare', () => {
    const result = checkBay({
      ...bay,
      baseJoints: [across],
      joints: [{ fromX: 3, fromY: 0, toX: 3, toY: 2.5 }],
    })
    expect(result.findings.at(-1)?.value).toBeCloseTo(2.4, 1)
  })
  test('BAY-16: a base joint under the edge of the bay, or outside it, needs nothing', () => {
    const edge = { fromX: 6, fromY: -1, toX: 6, toY: 6 }
    const outside = { fromX: 7, fromY: 0, toX: 7, toY: 5 }
    expect(checkBay({ ...bay, baseJoints: [edge, outside] }).verdict).toBe('pass')
  })
  test('BAY-17: a hairline of the base does not count, and one of unknown width does', () => {
    expect(checkBay({ ...bay, baseJoints: [{ ...across, widthMm: 0.5 }] }).verdict).toBe('pass')
    expect(checkBay({ ...bay, baseJoints: [{ ...across, widthMm: 0.6 }] }).verdict).toBe('fail')
  })
  test('BAY-18: an edge between heating zones needs a joint', () => {
    const result = checkBay({ ...heated, polygonM: rectangle(6, 5), zoneEdges: [across] })
    expect(result.verdict).toBe('fail')
    expect(result.findings.at(-1)?.what).toContain('heating zones')
  })
})

describe('BAY: outlines that are none', () => {
  test.each([
    [
      'crosses itself',
      [
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4],
      ],
      /meets side/,
    ],
    [
      'touches itself',
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [2, 0],
        [0, 4],
      ],
      /meets side/,
    ],
    [
      'runs back on itself',
      [
        [0, 0],
        [6, 0],
        [3, 0],
        [3, 4],
      ],
      /meets side/,
    ],
    [
      'is a line',
      [
        [0, 0],
        [4, 0],
        [8, 0],
      ],
      /encloses no area|meets side/,
    ],
    [
      'has two corners',
      [
        [0, 0],
        [4, 0],
      ],
      /at least 3/,
    ],
    [
      'has a corner that is not a number',
      [
        [0, 0],
        [4, Number.NaN],
        [4, 4],
      ],
      /polygonM\[1\]\.y/,
    ],
  ] as [string, [number, number][], RegExp][])(
    'BAY-19: an outline that %s is refused with a sentence',
    (_, polygonM, message) => {
      expect(() => bayShape(polygonM)).toThrow(InputError)
      expect(() => bayShape(polygonM)).toThrow(message)
    },
  )
  test('BAY-20: a corner given twice is one corner', () => {
    expect(
      bayShape([
        [0, 0],
        [4, 0],
        [4, 0],
        [4, 3],
        [0, 3],
        [0, 0],
      ]).areaM2,
    ).toBe(12)
  })
  test('BAY-21: inside, outside and on the edge are told apart', () => {
    const outline = lShape.map(([x, y]) => ({ x, y }))
    expect(isInside({ x: 1, y: 4 }, outline)).toBe(true)
    expect(isInside({ x: 4, y: 4 }, outline)).toBe(false)
    expect(isInside({ x: 2, y: 3 }, outline)).toBe(true)
  })
})
