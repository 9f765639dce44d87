// No published values: plane geometry worked by hand beside each check.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  areaWithin,
  bayUnder,
  isWhole,
  lengthAlong,
  middleOfPlace,
  type Place,
  tappedAt,
  withoutPoint,
  withPointAt,
} from '#renderer/screens/faults/report/place.ts'

const square = (name: string, x: number) => ({
  name,
  body: {
    outline: [
      { x, y: 0 },
      { x: x + 6, y: 0 },
      { x: x + 6, y: 6 },
      { x, y: 6 },
    ],
  },
})
const bays = [square('left', 0), square('right', 6)]
const line = (...points: { x: number; y: number }[]): Place => ({ shape: 'line', points })

describe('PLACE: where a fault lies', () => {
  it('PLACE-1: a second tap moves a spot, and lengthens a line', () => {
    const spot = tappedAt({ shape: 'point', points: [{ x: 1, y: 1 }] }, { x: 2, y: 3 })
    expect(spot.points).toEqual([{ x: 2, y: 3 }])
    expect(tappedAt(line({ x: 1, y: 1 }), { x: 2.00049, y: 3 }).points).toEqual([
      { x: 1, y: 1 },
      { x: 2, y: 3 },
    ])
  })

  it('PLACE-2: the length of a line is the sum of its parts (3-4-5 triangle, then 2 m straight on)', () => {
    expect(lengthAlong(line({ x: 0, y: 0 }, { x: 3, y: 4 }, { x: 3, y: 6 }))).toBeCloseTo(7, 12)
    expect(lengthAlong(line({ x: 0, y: 0 }))).toBeNull()
  })

  it('PLACE-3: an area is what its corners enclose; fewer than three enclose nothing', () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 4, y: 0 },
      { x: 4, y: 2 },
    ]
    expect(areaWithin({ shape: 'area', points: corners })).toBeCloseTo(4, 12)
    expect(areaWithin({ shape: 'area', points: corners.slice(0, 2) })).toBeNull()
    expect(isWhole({ shape: 'area', points: corners.slice(0, 2) })).toBe(false)
    expect(isWhole({ shape: 'area', points: corners })).toBe(true)
  })

  it('PLACE-4: the middle of a line lies on it, half its length from each end', () => {
    const bent = line({ x: 0, y: 0 }, { x: 2, y: 0 }, { x: 2, y: 6 })
    expect(middleOfPlace(bent)).toEqual({ x: 2, y: 2 })
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            x: fc.double({ min: -50, max: 50, noNaN: true }),
            y: fc.double({ min: -50, max: 50, noNaN: true }),
          }),
          {
            minLength: 2,
            maxLength: 8,
          },
        ),
        (points) => {
          const middle = middleOfPlace(line(...points))!
          const whole = lengthAlong(line(...points))!
          const upTo = Math.min(
            ...points.slice(1).map((to, i) => {
              const from = points[i]!
              const before = lengthAlong(line(...points.slice(0, i + 1))) ?? 0
              const there = Math.hypot(middle.x - from.x, middle.y - from.y)
              const onIt = Math.abs(
                there +
                  Math.hypot(to.x - middle.x, to.y - middle.y) -
                  Math.hypot(to.x - from.x, to.y - from.y),
              )
              return onIt < 1e-6 ? Math.abs(before + there - whole / 2) : Number.POSITIVE_INFINITY
            }),
          )
          expect(upTo).toBeLessThan(1e-6)
        },
      ),
      { seed: 7 },
    )
  })

  it('PLACE-5: a fault belongs to the bay under its middle, else to the one that holds most of it', () => {
    expect(bayUnder(line({ x: 5, y: 1 }, { x: 11, y: 1 }), bays)?.name).toBe('right')
    expect(bayUnder({ shape: 'point', points: [{ x: 3, y: 3 }] }, bays)?.name).toBe('left')
    // An angle whose middle lies outside, with two of three corners inside the left bay.
    const angle = {
      shape: 'area',
      points: [
        { x: 1, y: 1 },
        { x: 2, y: 1 },
        { x: 1, y: -9 },
      ],
    } as const
    expect(bayUnder(angle, bays)?.name).toBe('left')
  })

  it('PLACE-6: a place outside every bay has no bay, and neither has no place', () => {
    expect(bayUnder({ shape: 'point', points: [{ x: 30, y: 30 }] }, bays)).toBeNull()
    expect(bayUnder({ shape: 'point', points: [] }, bays)).toBeNull()
  })

  it('PLACE-7: moving or removing one point leaves the others where they are', () => {
    const three = line({ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 2, y: 0 })
    expect(withPointAt(three, 1, { x: 1, y: 5 }).points).toEqual([
      { x: 0, y: 0 },
      { x: 1, y: 5 },
      { x: 2, y: 0 },
    ])
    expect(withoutPoint(three, 1).points).toEqual([
      { x: 0, y: 0 },
      { x: 2, y: 0 },
    ])
  })
})
