import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import classes from './ready.module.css'

interface PointsDrawingProps {
  outline: readonly { x: number; y: number }[]
  tests: readonly JudgedTest[]
  governing: string | null
  label: string
}

const widthPx = 300
const mostHeightPx = 190
const marginPx = 22

/** The bay to scale with the places that were tested: full where the last test is valid, empty where it proves nothing. */
export function PointsDrawing({ outline, tests, governing, label }: PointsDrawingProps) {
  const xs = outline.map(({ x }) => x)
  const ys = outline.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.max(...ys)]
  const across = Math.max(...xs) - left || 1
  const up = top - Math.min(...ys) || 1
  const scale = Math.min((widthPx - 2 * marginPx) / across, (mostHeightPx - 2 * marginPx) / up)
  const place = ({ x, y }: { x: number; y: number }) => ({
    x: marginPx + (x - left) * scale,
    y: marginPx + (top - y) * scale,
  })
  const [width, height] = [across * scale + 2 * marginPx, up * scale + 2 * marginPx]
  const last = new Map(tests.map((test) => [test.point, test]))
  return (
    <svg
      className={classes.points}
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={label}
    >
      <polygon
        className={classes.outline}
        points={outline
          .map(place)
          .map(({ x, y }) => `${x},${y}`)
          .join(' ')}
      />
      {[...last.values()].map(({ entry, valid }) => {
        const { x: px, y: py, point } = entry.body
        if (px === undefined || py === undefined) return null
        const { x, y } = place({ x: px, y: py })
        return (
          <g key={entry.id}>
            {entry.id === governing && <circle cx={x} cy={y} r={13} className={classes.ring} />}
            <rect
              x={x - 6}
              y={y - 6}
              width={12}
              height={12}
              className={valid ? classes.pointFull : classes.pointEmpty}
            />
            <text x={x} y={y - 16} className={classes.pointName}>
              {point}
            </text>
          </g>
        )
      })}
    </svg>
  )
}
