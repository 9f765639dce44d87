import { numberFromTyped } from '../number-text.ts'
import type { DraftValues } from './draft.ts'

/** A rectangle as typed: sides and the place of its lower left corner on the floor. */
export interface Rectangle {
  lengthM: string
  widthM: string
  x: string
  y: string
}

/** The four corners of a typed rectangle; none until both sides are numbers above zero. */
export function rectangleCorners(typed: Rectangle): DraftValues[] {
  const [lengthM, widthM, x, y] = [typed.lengthM, typed.widthM, typed.x, typed.y].map(numberOrNull)
  if (lengthM == null || widthM == null || x == null || y == null || lengthM <= 0 || widthM <= 0) return []
  const corners = [
    [x, y],
    [x + lengthM, y],
    [x + lengthM, y + widthM],
    [x, y + widthM],
  ] as const
  return corners.map(([cx, cy]) => ({ x: millimetre(cx), y: millimetre(cy) }))
}

/** The rectangle that these corners are, when they are one with sides along the axes. */
export function rectangleOf(corners: readonly DraftValues[]): Rectangle | null {
  const points = cornersOf(corners)
  if (points.length !== 4) return null
  const xs = [...new Set(points.map(({ x }) => x))].sort((a, b) => a - b)
  const ys = [...new Set(points.map(({ y }) => y))].sort((a, b) => a - b)
  const [left, right] = xs
  const [bottom, top] = ys
  if (xs.length !== 2 || ys.length !== 2 || left === undefined || right === undefined) return null
  if (bottom === undefined || top === undefined) return null
  const square = points.every((point, i) => {
    const next = points[(i + 1) % 4]!
    return (point.x === next.x) !== (point.y === next.y)
  })
  if (!square) return null
  return {
    lengthM: millimetre(right - left),
    widthM: millimetre(top - bottom),
    x: String(left),
    y: String(bottom),
  }
}

/** The corners that are numbers already. */
export function cornersOf(corners: readonly DraftValues[]): { x: number; y: number }[] {
  return corners.flatMap(({ x, y }) => {
    const [across, up] = [numberOrNull(String(x ?? '')), numberOrNull(String(y ?? ''))]
    return across === null || up === null ? [] : [{ x: across, y: up }]
  })
}

function numberOrNull(typed: string): number | null {
  const read = numberFromTyped(typed)
  return read.kind === 'number' ? read.value : null
}

const millimetre = (metres: number) => String(Math.round(metres * 1000) / 1000)
