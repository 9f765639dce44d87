import type { Point } from '#model/movement/index.ts'

export type SnappedTo = 'corner' | 'edge' | 'grid'
export interface Snapped extends Point {
  to: SnappedTo
}

/** The smallest step of a drawn corner [m]. */
export const gridM = 0.1

/**
 * Returns where a corner goes that is let go at `point`: onto a corner of another bay within reach, else onto an edge of
 * one (at the grid along it where the edge runs along the axes), else onto the grid.
 *
 * @param others outlines of the other bays [m].
 * @param reachM how far a corner or an edge draws the point to it [m].
 */
export function snap(point: Point, others: readonly (readonly Point[])[], reachM: number): Snapped {
  const corner = nearest(others.flat(), point, reachM)
  if (corner !== null) return { ...corner, to: 'corner' }
  const onGrid = { x: toGrid(point.x), y: toGrid(point.y) }
  const onEdges = others.flatMap((outline) =>
    outline.map((from, i) => onEdge(from, outline[(i + 1) % outline.length]!, point, onGrid)),
  )
  const edge = nearest(onEdges, point, reachM)
  return edge === null ? { ...onGrid, to: 'grid' } : { ...edge, to: 'edge' }
}

export function toGrid(metres: number): number {
  return millimetres(Math.round(metres / gridM) * gridM)
}

/** Rounded to a millimetre, the finest that a plan is read. */
export function millimetres(metres: number): number {
  return Math.round(metres * 1000) / 1000
}

function nearest(points: readonly Point[], point: Point, reachM: number): Point | null {
  let best: Point | null = null
  let least = reachM
  for (const { x, y } of points) {
    const far = Math.hypot(x - point.x, y - point.y)
    if (far > least) continue
    best = { x, y }
    least = far
  }
  return best
}

function onEdge(from: Point, to: Point, point: Point, onGrid: Point): Point {
  if (from.x === to.x) return { x: from.x, y: between(onGrid.y, from.y, to.y) }
  if (from.y === to.y) return { x: between(onGrid.x, from.x, to.x), y: from.y }
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  const t = between(((point.x - from.x) * dx + (point.y - from.y) * dy) / (dx * dx + dy * dy), 0, 1)
  return { x: millimetres(from.x + t * dx), y: millimetres(from.y + t * dy) }
}

function between(value: number, a: number, b: number): number {
  return Math.min(Math.max(value, Math.min(a, b)), Math.max(a, b))
}
