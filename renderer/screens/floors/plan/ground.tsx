import { floorsWords as words } from '../../../app/words/floors.ts'
import { roundStep } from '../../../charts/value-ticks.ts'
import { numberText } from '../../../parts/number-text.ts'
import classes from './plan.module.css'
import { type PlanView, type Size, toFloor, toScreen } from './view.ts'

interface GroundProps {
  view: PlanView
  size: Size
}

/** The grid in metres: fine lines, and stronger ones every five steps. */
export function Grid({ view, size }: GroundProps) {
  const step = roundStep(14 / view.pxPerM)
  const upperLeft = toFloor({ x: 0, y: 0 }, view, size)
  const lowerRight = toFloor({ x: size.width, y: size.height }, view, size)
  return (
    <g aria-hidden>
      {stepsBetween(upperLeft.x, lowerRight.x, step).map((i) => {
        const { x } = toScreen({ x: i * step, y: 0 }, view, size)
        return <line key={i} x1={x} x2={x} y1={0} y2={size.height} className={gridClass(i)} />
      })}
      {stepsBetween(lowerRight.y, upperLeft.y, step).map((i) => {
        const { y } = toScreen({ x: 0, y: i * step }, view, size)
        return <line key={i} x1={0} x2={size.width} y1={y} y2={y} className={gridClass(i)} />
      })}
    </g>
  )
}

/** How long a metre is on screen. */
export function ScaleBar({ view, size }: GroundProps) {
  const metres = roundStep(90 / view.pxPerM)
  const width = metres * view.pxPerM
  const left = 16
  const top = size.height - 18
  return (
    <g aria-hidden>
      <rect x={left - 8} y={top - 22} width={width + 16} height={34} className={classes.scalePaper} />
      <rect x={left} y={top} width={width / 2} height={5} className={classes.scaleFull} />
      <rect x={left + width / 2} y={top} width={width / 2} height={5} className={classes.scaleEmpty} />
      <text x={left} y={top - 6} className={classes.scaleText}>
        0
      </text>
      <text x={left + width} y={top - 6} textAnchor="end" className={classes.scaleText}>
        {numberText(metres)} {words.plan.metres}
      </text>
    </g>
  )
}

function stepsBetween(from: number, until: number, step: number): number[] {
  const first = Math.ceil(from / step)
  const last = Math.floor(until / step)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i)
}

const gridClass = (i: number) => (i % 5 === 0 ? classes.gridStrong : classes.grid)
