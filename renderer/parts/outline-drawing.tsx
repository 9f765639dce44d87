import classes from './outline-drawing.module.css'

interface OutlineDrawingProps {
  points: readonly { x: number; y: number }[]
  label?: string
}

/** A bay's outline to scale, y upwards as on a plan. */
export function OutlineDrawing({ points, label }: OutlineDrawingProps) {
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.max(...ys)]
  const width = Math.max(...xs) - left || 1
  const height = top - Math.min(...ys) || 1
  const margin = 0.04 * Math.max(width, height)
  const box = `${-margin} ${-margin} ${width + 2 * margin} ${height + 2 * margin}`
  return (
    <svg
      className={classes.drawing}
      viewBox={box}
      role={label === undefined ? undefined : 'img'}
      aria-label={label}
      aria-hidden={label === undefined || undefined}
    >
      <polygon
        points={points.map(({ x, y }) => `${x - left},${top - y}`).join(' ')}
        className={classes.bay}
      />
    </svg>
  )
}
