import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  middleOf,
  rectangleBetween,
  withCornerAt,
  withoutCorner,
  withSideSplit,
} from '#renderer/screens/floors/draw/corners.ts'
import { overlaps } from '#renderer/screens/floors/draw/overlap.ts'
import { snap } from '#renderer/screens/floors/draw/snap.ts'
import { fitted, pannedBy, scaledBy, toFloor, toScreen } from '#renderer/screens/floors/plan/view.ts'

const metres = fc.double({ min: -200, max: 200, noNaN: true })
const point = fc.record({ x: metres, y: metres })
const size = { width: 900, height: 600 }
const square = [
  { x: 0, y: 0 },
  { x: 6, y: 0 },
  { x: 6, y: 5.55 },
  { x: 0, y: 5.55 },
]

describe('the view of a plan', () => {
  const view = fc.record({ x: metres, y: metres, pxPerM: fc.double({ min: 2, max: 400, noNaN: true }) })

  it('PLAN-1: a place on screen and its point of the floor are each other’s inverse', () => {
    fc.assert(
      fc.property(point, view, (p, v) => {
        const back = toFloor(toScreen(p, v, size), v, size)
        expect(back.x).toBeCloseTo(p.x, 6)
        expect(back.y).toBeCloseTo(p.y, 6)
      }),
    )
  })

  it('PLAN-2: up on the floor is up on screen', () => {
    const v = { x: 0, y: 0, pxPerM: 10 }
    expect(toScreen({ x: 0, y: 1 }, v, size).y).toBeLessThan(toScreen({ x: 0, y: 0 }, v, size).y)
  })

  it('PLAN-3: zooming keeps the point under the cursor where it is, at any scale, also when the scale is at its end', () => {
    fc.assert(
      fc.property(view, fc.double({ min: 0.1, max: 10, noNaN: true }), (v, factor) => {
        const place = { x: 250, y: 480 }
        const before = toFloor(place, v, size)
        const after = toFloor(place, scaledBy(v, factor, place, size), size)
        expect(after.x).toBeCloseTo(before.x, 6)
        expect(after.y).toBeCloseTo(before.y, 6)
      }),
    )
  })

  it('PLAN-4: a floor is fitted so that every corner is on screen', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 12 }), (points) => {
        const v = fitted(points, size)
        for (const p of points) {
          const at = toScreen(p, v, size)
          expect(at.x).toBeGreaterThan(0)
          expect(at.x).toBeLessThan(size.width)
          expect(at.y).toBeGreaterThan(0)
          expect(at.y).toBeLessThan(size.height)
        }
      }),
    )
  })

  it('PLAN-5: dragging by ten pixels moves what is seen by ten pixels', () => {
    const v = { x: 3, y: 4, pxPerM: 37 }
    const before = toScreen({ x: 1, y: 1 }, v, size)
    const after = toScreen({ x: 1, y: 1 }, pannedBy(v, 10, -4), size)
    expect(after.x - before.x).toBeCloseTo(10, 9)
    expect(after.y - before.y).toBeCloseTo(-4, 9)
  })
})

describe('snapping a drawn corner', () => {
  it('PLAN-6: a corner of a neighbour is taken before its edge, and its edge before the grid', () => {
    expect(snap({ x: 5.93, y: 5.48 }, [square], 0.2)).toEqual({ x: 6, y: 5.55, to: 'corner' })
    expect(snap({ x: 5.93, y: 2.33 }, [square], 0.2)).toEqual({ x: 6, y: 2.3, to: 'edge' })
    expect(snap({ x: 8.17, y: 2.33 }, [square], 0.2)).toEqual({ x: 8.2, y: 2.3, to: 'grid' })
  })

  it('PLAN-7: a corner on a slanting edge stands on that edge, to the millimetre', () => {
    const slanting = [
      { x: 0, y: 0 },
      { x: 10, y: 5 },
      { x: 0, y: 10 },
    ]
    const on = snap({ x: 4.02, y: 1.93 }, [slanting], 0.2)
    expect(on.to).toBe('edge')
    expect(on.y).toBeCloseTo(on.x / 2, 3)
  })

  it('PLAN-8: with no neighbour near, every corner is on the 0.1 m grid', () => {
    fc.assert(
      fc.property(point, (p) => {
        const { x, y, to } = snap(p, [], 0.3)
        expect(to).toBe('grid')
        expect(Math.abs(x - p.x)).toBeLessThanOrEqual(0.05 + 1e-9)
        expect(Number((x * 10).toFixed(6)) % 1).toBeCloseTo(0, 6)
        expect(String(y).replace(/^-?\d+\.?/, '').length).toBeLessThanOrEqual(1)
      }),
    )
  })
})

describe('the corners of an outline', () => {
  it('PLAN-9: two opposite corners make a counter-clockwise rectangle, whichever way it was dragged', () => {
    const wanted = [
      { x: 1, y: 2 },
      { x: 4, y: 2 },
      { x: 4, y: 6 },
      { x: 1, y: 6 },
    ]
    expect(rectangleBetween({ x: 4, y: 6 }, { x: 1, y: 2 })).toEqual(wanted)
    expect(rectangleBetween({ x: 1, y: 6 }, { x: 4, y: 2 })).toEqual(wanted)
    expect(rectangleBetween({ x: 1, y: 6 }, { x: 1, y: 2 })).toEqual([])
  })

  it('PLAN-10: splitting a side adds its middle; taking it away again gives the outline back', () => {
    const split = withSideSplit(square, 3)
    expect(split).toHaveLength(5)
    expect(split[4]).toEqual({ x: 0, y: 2.775 })
    expect(withoutCorner(split, 4)).toEqual(square)
    expect(withoutCorner(square.slice(0, 3), 0)).toHaveLength(3)
    expect(withCornerAt(square, 1, { x: 7, y: 0 })[1]).toEqual({ x: 7, y: 0 })
  })

  it('PLAN-11: the middle of a rectangle is its centre, that of an L lies off the centre of its box', () => {
    expect(middleOf(square)).toEqual({ x: 3, y: 2.775 })
    const ell = [
      { x: 0, y: 0 },
      { x: 4, y: 0 },
      { x: 4, y: 2 },
      { x: 2, y: 2 },
      { x: 2, y: 4 },
      { x: 0, y: 4 },
    ]
    // Composite areas: (8·(2, 1) + 4·(1, 3)) / 12.
    expect(middleOf(ell).x).toBeCloseTo(5 / 3, 9)
    expect(middleOf(ell).y).toBeCloseTo(5 / 3, 9)
    expect(
      middleOf([
        { x: 1, y: 1 },
        { x: 3, y: 1 },
      ]),
    ).toEqual({ x: 2, y: 1 })
  })
})

describe('bays that lie on each other', () => {
  const box = (x: number, y: number, w: number, h: number) =>
    rectangleBetween({ x, y }, { x: x + w, y: y + h })

  it('PLAN-12: neighbours that share an edge or a corner do not overlap, one that reaches over does', () => {
    expect(overlaps(box(0, 0, 6, 5), box(6, 0, 6, 5))).toBe(false)
    expect(overlaps(box(0, 0, 6, 5), box(6, 5, 6, 5))).toBe(false)
    expect(overlaps(box(0, 0, 6, 5), box(5.8, 0, 6, 5))).toBe(true)
  })

  it('PLAN-13: one inside the other, the same one, and two that cross like a plus overlap, both ways', () => {
    const pairs = [
      [box(0, 0, 9, 9), box(3, 3, 1, 1)],
      [box(0, 0, 6, 5), box(0, 0, 6, 5)],
      [box(0, 4, 10, 1), box(4, 0, 1, 10)],
    ] as const
    for (const [a, b] of pairs) {
      expect(overlaps(a, b)).toBe(true)
      expect(overlaps(b, a)).toBe(true)
    }
  })
})
