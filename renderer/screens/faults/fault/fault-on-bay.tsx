import type { FaultPage } from '#model/contract/faults.ts'
import type { Point } from '#model/movement/index.ts'
import classes from './fault.module.css'

interface FaultOnBayProps {
  outline: readonly Point[]
  defects: FaultPage['defects']
  label: string
}

const widthPx = 300
const heightPx = 200
const marginPx = 10

/** The bay to scale with the fault where it was drawn; nothing when nobody gave its place. */
export function FaultOnBay({ outline, defects, label }: FaultOnBayProps) {
  const placed = defects.find(({ body }) => body.outline !== undefined || body.x !== undefined)?.body
  if (placed === undefined) return null
  const xs = outline.map(({ x }) => x)
  const ys = outline.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.max(...ys)]
  const [across, up] = [Math.max(...xs) - left || 1, top - Math.min(...ys) || 1]
  const scale = Math.min((widthPx - 2 * marginPx) / across, (heightPx - 2 * marginPx) / up)
  const at = ({ x, y }: Point) => ({ x: marginPx + (x - left) * scale, y: marginPx + (top - y) * scale })
  const path = (points: readonly Point[]) =>
    points
      .map(at)
      .map(({ x, y }) => `${x},${y}`)
      .join(' ')
  const size = { width: across * scale + 2 * marginPx, height: up * scale + 2 * marginPx }
  const points = placed.outline ?? []
  const spot = placed.x === undefined || placed.y === undefined ? null : at({ x: placed.x, y: placed.y })
  return (
    <svg
      className={classes.onBay}
      viewBox={`0 0 ${size.width} ${size.height}`}
      width={size.width}
      height={size.height}
      role="img"
      aria-label={label}
    >
      <polygon points={path(outline)} className={classes.bayOutline} />
      {placed.shape === 'line' && points.length > 1 ? (
        <polyline points={path(points)} className={classes.faultLine} />
      ) : placed.shape === 'area' && points.length > 2 ? (
        <polygon points={path(points)} className={classes.faultArea} />
      ) : (
        spot !== null && (
          <path d={`M${spot.x - 9} ${spot.y}h18M${spot.x} ${spot.y - 9}v18`} className={classes.faultLine} />
        )
      )}
    </svg>
  )
}
