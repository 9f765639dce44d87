import type { Point } from '#model/movement/index.ts'

/** What the plan shows: the point of the floor in the middle [m] and the scale [px per m]. North of the plan is up. */
export interface PlanView {
  x: number
  y: number
  pxPerM: number
}

export interface Size {
  width: number
  height: number
}

const leastPxPerM = 0.2
const mostPxPerM = 400

/** Where a point of the floor stands on screen [px], from the upper left corner. */
export function toScreen(point: Point, view: PlanView, size: Size): Point {
  return {
    x: size.width / 2 + (point.x - view.x) * view.pxPerM,
    y: size.height / 2 - (point.y - view.y) * view.pxPerM,
  }
}

/** The point of the floor [m] that stands at a place on screen [px]. */
export function toFloor(place: Point, view: PlanView, size: Size): Point {
  return {
    x: view.x + (place.x - size.width / 2) / view.pxPerM,
    y: view.y - (place.y - size.height / 2) / view.pxPerM,
  }
}

/** The view that holds all points with a margin; 20 m across when there are none. */
export function fitted(points: readonly Point[], size: Size, marginPx = 44): PlanView {
  const xs = points.length === 0 ? [0, 20] : points.map(({ x }) => x)
  const ys = points.length === 0 ? [0, 12] : points.map(({ y }) => y)
  const [left, right] = [Math.min(...xs), Math.max(...xs)]
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)]
  const across = Math.max(40, size.width - 2 * marginPx) / Math.max(0.5, right - left)
  const up = Math.max(40, size.height - 2 * marginPx) / Math.max(0.5, top - bottom)
  return { x: (left + right) / 2, y: (bottom + top) / 2, pxPerM: held(Math.min(across, up)) }
}

/** The view moved by so many pixels: what is seen follows the hand. */
export function pannedBy(view: PlanView, dx: number, dy: number): PlanView {
  return { ...view, x: view.x - dx / view.pxPerM, y: view.y + dy / view.pxPerM }
}

/** The view at another scale, with the point at `place` staying where it is. */
export function scaledBy(view: PlanView, factor: number, place: Point, size: Size): PlanView {
  const pxPerM = held(view.pxPerM * factor)
  const fixed = toFloor(place, view, size)
  return {
    x: fixed.x - (place.x - size.width / 2) / pxPerM,
    y: fixed.y + (place.y - size.height / 2) / pxPerM,
    pxPerM,
  }
}

function held(pxPerM: number): number {
  return Math.min(mostPxPerM, Math.max(leastPxPerM, pxPerM))
}
