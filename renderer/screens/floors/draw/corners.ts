import type { Point } from '#model/movement/index.ts'
import { millimetres } from './snap.ts'

/** The four corners of the rectangle between two opposite corners, counter-clockwise; none when it has no area. */
export function rectangleBetween(a: Point, b: Point): Point[] {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)]
  const [bottom, top] = [Math.min(a.y, b.y), Math.max(a.y, b.y)]
  if (left === right || bottom === top) return []
  return [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]
}

export function withCornerAt(corners: readonly Point[], index: number, place: Point): Point[] {
  return corners.map((corner, i) => (i === index ? { x: place.x, y: place.y } : corner))
}

/** A new corner in the middle of the side that begins at `index`. */
export function withSideSplit(corners: readonly Point[], index: number): Point[] {
  const from = corners[index]
  const to = corners[(index + 1) % corners.length]
  if (from === undefined || to === undefined) return [...corners]
  const middle = { x: millimetres((from.x + to.x) / 2), y: millimetres((from.y + to.y) / 2) }
  return corners.toSpliced(index + 1, 0, middle)
}

/** Without that corner; an outline keeps at least three. */
export function withoutCorner(corners: readonly Point[], index: number): Point[] {
  return corners.length > 3 ? corners.toSpliced(index, 1) : [...corners]
}

/** Where a name stands: the middle of the area, or of the box around points that enclose none. */
export function middleOf(corners: readonly Point[]): Point {
  let [area, x, y] = [0, 0, 0]
  const origin = corners[0] ?? { x: 0, y: 0 }
  for (const [i, from] of corners.entries()) {
    const to = corners[(i + 1) % corners.length]!
    const [ax, ay, bx, by] = [from.x - origin.x, from.y - origin.y, to.x - origin.x, to.y - origin.y]
    const cross = ax * by - bx * ay
    area += cross
    x += (ax + bx) * cross
    y += (ay + by) * cross
  }
  if (Math.abs(area) > 1e-9) return { x: origin.x + x / (3 * area), y: origin.y + y / (3 * area) }
  const xs = corners.map((corner) => corner.x)
  const ys = corners.map((corner) => corner.y)
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 }
}
