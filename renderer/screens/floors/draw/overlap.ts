import { isInside, type Point } from '#model/movement/index.ts'
import { middleOf } from './corners.ts'

const stepM = 0.2
/** Bays that share an edge do not overlap: points this close to it do not count. */
const skinM = 0.02

/**
 * True when one outline lies on the other by more than a skin: some point just inside the edge of one is inside the other,
 * looked at every 0.2 m.
 */
export function overlaps(a: readonly Point[], b: readonly Point[]): boolean {
  return (
    [...pointsJustInside(a), middleOf(a)].some((point) => isDeepInside(point, b)) ||
    [...pointsJustInside(b), middleOf(b)].some((point) => isDeepInside(point, a))
  )
}

function isDeepInside(point: Point, outline: readonly Point[]): boolean {
  return nudges.every(([dx, dy]) => isInside({ x: point.x + dx, y: point.y + dy }, outline))
}

const nudges = [
  [skinM, 0],
  [-skinM, 0],
  [0, skinM],
  [0, -skinM],
] as const

function* pointsJustInside(outline: readonly Point[]): Generator<Point> {
  for (const [i, from] of outline.entries()) {
    const to = outline[(i + 1) % outline.length]!
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    if (length === 0) continue
    const inwards = { x: (-(to.y - from.y) / length) * 3 * skinM, y: ((to.x - from.x) / length) * 3 * skinM }
    const steps = Math.max(2, Math.ceil(length / stepM))
    for (let k = 0; k <= steps; k++) {
      const along = { x: from.x + (k / steps) * (to.x - from.x), y: from.y + (k / steps) * (to.y - from.y) }
      for (const side of [1, -1]) {
        const point = { x: along.x + side * inwards.x, y: along.y + side * inwards.y }
        if (isInside(point, outline)) yield point
      }
    }
  }
}
