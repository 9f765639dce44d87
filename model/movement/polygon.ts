import { InputError, requireLength, requireNumber } from '../errors.ts'

export interface Point {
  x: number
  y: number
}
/** A corner as {x, y} or [x, y], in metres. */
export type Corner = Point | readonly [x: number, y: number]

/** A straight line on the plan, in metres. */
export interface Segment {
  fromX: number
  fromY: number
  toX: number
  toY: number
}

const nearlyZero = 1e-9

/**
 * Returns the corners of an outline: counter-clockwise, without repeated points and without points on a straight side.
 *
 * @throws InputError when a corner is not a number, fewer than three remain, or sides cross or touch.
 */
export function cleanOutline(corners: readonly Corner[]): Point[] {
  requireLength('polygonM', corners, 3)
  const points = corners.map((corner, i) => {
    const { x, y } = Array.isArray(corner) ? { x: corner[0], y: corner[1] } : (corner as Point)
    requireNumber(`polygonM[${i}].x`, x, -100_000, 100_000, 'm')
    requireNumber(`polygonM[${i}].y`, y, -100_000, 100_000, 'm')
    return { x, y }
  })
  const distinct = points.filter((point, i) => distance(point, points[(i + 1) % points.length]!) > 1e-6)
  refuseCrossing(distinct)
  const turning = distinct.filter((point, i) => {
    const before = distinct[(i + distinct.length - 1) % distinct.length]!
    const after = distinct[(i + 1) % distinct.length]!
    return Math.abs(cross(before, point, after)) > 1e-6 * distance(before, point) * distance(point, after)
  })
  if (turning.length < 3 || areaOf(turning) < 1e-6) {
    throw new InputError(
      'polygonM',
      'The outline encloses no area; give at least three corners that are not in one line.',
    )
  }
  return signedArea(turning) > 0 ? turning : turning.toReversed()
}

/** Area by the shoelace formula [m²]. */
export function areaOf(points: readonly Point[]): number {
  return Math.abs(signedArea(points))
}

/** The sides of an outline, in order. */
export function sidesOf(points: readonly Point[]): Segment[] {
  return points.map((from, i) => {
    const to = points[(i + 1) % points.length]!
    return { fromX: from.x, fromY: from.y, toX: to.x, toY: to.y }
  })
}

export function lengthOf({ fromX, fromY, toX, toY }: Segment): number {
  return Math.hypot(toX - fromX, toY - fromY)
}

/** The corners that turn inwards, of a counter-clockwise outline. */
export function reentrantCornersOf(points: readonly Point[]): Point[] {
  return points.filter((point, i) => {
    const before = points[(i + points.length - 1) % points.length]!
    const after = points[(i + 1) % points.length]!
    return cross(before, point, after) < 0
  })
}

/** The sides of the smallest rectangle, in any direction, that holds the points [m]. */
export function smallestRectangle(points: readonly Point[]): { longM: number; shortM: number } {
  const hull = convexHull(points)
  const boxes = sidesOf(hull).map((side) => {
    const length = lengthOf(side)
    const ux = (side.toX - side.fromX) / length
    const uy = (side.toY - side.fromY) / length
    const along = hull.map(({ x, y }) => x * ux + y * uy)
    const across = hull.map(({ x, y }) => y * ux - x * uy)
    const a = Math.max(...along) - Math.min(...along)
    const b = Math.max(...across) - Math.min(...across)
    return { longM: Math.max(a, b), shortM: Math.min(a, b) }
  })
  return boxes.reduce((best, box) => (box.longM * box.shortM < best.longM * best.shortM ? box : best))
}

/** True when the point is inside the outline or on its edge. */
export function isInside(point: Point, outline: readonly Point[]): boolean {
  let inside = false
  for (const side of sidesOf(outline)) {
    if (distanceToSegment(point, side) < 1e-6) return true
    const { fromX, fromY, toX, toY } = side
    if (
      fromY > point.y !== toY > point.y &&
      point.x < fromX + ((point.y - fromY) / (toY - fromY)) * (toX - fromX)
    ) {
      inside = !inside
    }
  }
  return inside
}

/** The parts of a segment that run through the inside of the outline; parts along its edge do not count. */
export function partsInside(segment: Segment, outline: readonly Point[]): Segment[] {
  const dx = segment.toX - segment.fromX
  const dy = segment.toY - segment.fromY
  const cuts = [0, 1]
  for (const side of sidesOf(outline)) {
    const sx = side.toX - side.fromX
    const sy = side.toY - side.fromY
    const denominator = dx * sy - dy * sx
    if (Math.abs(denominator) < nearlyZero) continue
    const t = ((side.fromX - segment.fromX) * sy - (side.fromY - segment.fromY) * sx) / denominator
    const u = ((side.fromX - segment.fromX) * dy - (side.fromY - segment.fromY) * dx) / denominator
    if (t > 0 && t < 1 && u >= -nearlyZero && u <= 1 + nearlyZero) cuts.push(t)
  }
  cuts.sort((a, b) => a - b)
  const pointAt = (t: number) => ({ x: segment.fromX + t * dx, y: segment.fromY + t * dy })
  return cuts.slice(1).flatMap((end, i) => {
    const start = cuts[i]!
    const middle = pointAt((start + end) / 2)
    const onEdge = sidesOf(outline).some((side) => distanceToSegment(middle, side) < 1e-6)
    if (end - start < nearlyZero || onEdge || !isInside(middle, outline)) return []
    const [from, to] = [pointAt(start), pointAt(end)]
    return [{ fromX: from.x, fromY: from.y, toX: to.x, toY: to.y }]
  })
}

export function distanceToSegment({ x, y }: Point, { fromX, fromY, toX, toY }: Segment): number {
  const dx = toX - fromX
  const dy = toY - fromY
  const squared = dx * dx + dy * dy
  const t = squared === 0 ? 0 : Math.min(1, Math.max(0, ((x - fromX) * dx + (y - fromY) * dy) / squared))
  return Math.hypot(x - fromX - t * dx, y - fromY - t * dy)
}

/** Metres from a point to a drawn thing: a point, a line of two or more points, or an area of three or more; 0 inside it. */
export function metresToShape(shape: readonly Point[], point: Point): number {
  const [first] = shape
  if (first === undefined) return Number.POSITIVE_INFINITY
  if (shape.length === 1) return distance(first, point)
  if (shape.length > 2 && isInside(point, shape)) return 0
  const sides = shape.length === 2 ? sidesOf(shape).slice(0, 1) : sidesOf(shape)
  return Math.min(...sides.map((side) => distanceToSegment(point, side)))
}

function refuseCrossing(points: readonly Point[]): void {
  const sides = sidesOf(points)
  for (let i = 0; i < sides.length; i++) {
    for (let j = i + 2; j < sides.length; j++) {
      if (i === 0 && j === sides.length - 1) continue
      if (!segmentsMeet(sides[i]!, sides[j]!)) continue
      throw new InputError(
        'polygonM',
        `Side ${i + 1} of the outline meets side ${j + 1}; draw the corners in order around the bay so that no sides cross or touch.`,
      )
    }
  }
}

function segmentsMeet(a: Segment, b: Segment): boolean {
  const [a1, a2] = endsOf(a)
  const [b1, b2] = endsOf(b)
  const crosses =
    Math.sign(cross(a1, a2, b1)) * Math.sign(cross(a1, a2, b2)) < 0 &&
    Math.sign(cross(b1, b2, a1)) * Math.sign(cross(b1, b2, a2)) < 0
  const touch = 1e-6
  return (
    crosses ||
    distanceToSegment(a1, b) < touch ||
    distanceToSegment(a2, b) < touch ||
    distanceToSegment(b1, a) < touch ||
    distanceToSegment(b2, a) < touch
  )
}

function endsOf({ fromX, fromY, toX, toY }: Segment): [Point, Point] {
  return [
    { x: fromX, y: fromY },
    { x: toX, y: toY },
  ]
}

function convexHull(points: readonly Point[]): Point[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y)
  const half = (ordered: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of ordered) {
      while (chain.length > 1 && cross(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.toReversed())]
}

function signedArea(points: readonly Point[]): number {
  // Measured from the first corner, so that large plan coordinates do not eat the digits.
  const origin = points[0]!
  return points.reduce((sum, point, i) => sum + cross(origin, point, points[(i + 1) % points.length]!), 0) / 2
}

/** Positive when the turn from `a` over `b` to `c` is to the left. */
function cross(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y)
}
