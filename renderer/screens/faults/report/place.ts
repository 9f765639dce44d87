import { areaOf, isInside, type Point } from '#model/movement/index.ts'
import { middleOf } from '../../floors/draw/corners.ts'
import { millimetres } from '../../floors/draw/snap.ts'

export const placeShapes = ['point', 'line', 'area'] as const
export type PlaceShape = (typeof placeShapes)[number]

/** Where a fault lies on the plan [m]: a spot, along a line, or over an area. */
export interface Place {
  shape: PlaceShape
  points: readonly Point[]
}

const leastPoints: Record<PlaceShape, number> = { point: 1, line: 2, area: 3 }

/** True when there are points enough to be what it is called. */
export function isWhole({ shape, points }: Place): boolean {
  return points.length >= leastPoints[shape]
}

/** The place after a tap on the plan: a spot moves there, a line or an area goes on to there. */
export function tappedAt({ shape, points }: Place, at: Point): Place {
  const point = { x: millimetres(at.x), y: millimetres(at.y) }
  return { shape, points: shape === 'point' ? [point] : [...points, point] }
}

export function withPointAt(place: Place, index: number, at: Point): Place {
  const point = { x: millimetres(at.x), y: millimetres(at.y) }
  return { ...place, points: place.points.map((old, i) => (i === index ? point : old)) }
}

export function withoutPoint(place: Place, index: number): Place {
  return { ...place, points: place.points.toSpliced(index, 1) }
}

/** Length along a line [m]; null of anything else. */
export function lengthAlong({ shape, points }: Place): number | null {
  if (shape !== 'line' || points.length < 2) return null
  return points.slice(1).reduce((sum, to, i) => sum + Math.hypot(to.x - points[i]!.x, to.y - points[i]!.y), 0)
}

/** Area that is enclosed [m²]; null of anything else. */
export function areaWithin({ shape, points }: Place): number | null {
  return shape === 'area' && points.length >= 3 ? areaOf(points) : null
}

/** One point that stands for the whole: the spot, the middle of the line, the middle of the area. */
export function middleOfPlace({ shape, points }: Place): Point | null {
  const [first] = points
  if (first === undefined) return null
  if (shape === 'area' && points.length >= 3) return middleOf(points)
  return shape === 'line' ? halfWay(points) : first
}

function halfWay(points: readonly Point[]): Point {
  const whole = lengthAlong({ shape: 'line', points }) ?? 0
  let left = whole / 2
  for (const [i, to] of points.slice(1).entries()) {
    const from = points[i]!
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    if (length >= left && length > 0) {
      const share = left / length
      return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) }
    }
    left -= length
  }
  return points[0]!
}

/** The bay in which a place lies: the one that holds its middle, else the one that holds most of its points. */
export function bayUnder<B extends { body: { outline: readonly Point[] } }>(
  place: Place,
  bays: readonly B[],
): B | null {
  const middle = middleOfPlace(place)
  if (middle === null) return null
  const held = (bay: B) => place.points.filter((point) => isInside(point, bay.body.outline)).length
  const most = bays.toSorted((a, b) => held(b) - held(a))[0]
  return (
    bays.find(({ body }) => isInside(middle, body.outline)) ??
    (most !== undefined && held(most) > 0 ? most : null)
  )
}
