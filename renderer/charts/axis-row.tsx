import classes from './charts.module.css'
import type { StripPlace } from './time-strip.tsx'
import type { TimeTick } from './time-ticks.ts'
import { type TimeSpan, xOf } from './time-view.ts'

interface AxisRowProps {
  view: TimeSpan
  place: StripPlace
  ticks: readonly TimeTick[]
  now: number
  nowWord: string
  /** A second line below each mark, such as the day of life. */
  below?: (at: number) => string | null
}

export const axisRowPx = 46

/** The shared axis of time: dates of the site, and the day of life below them. */
export function AxisRow({ view, place, ticks, now, nowWord, below }: AxisRowProps) {
  const plotPx = place.width - place.gutter - place.right
  const left = (at: number) => place.gutter + xOf(at, view, plotPx)
  const nowX = left(now)
  const anchorOf = (at: number) =>
    left(at) > place.width - 44 ? 'end' : left(at) < place.gutter + 8 ? 'start' : 'middle'
  const showsNow = now >= view.from && now <= view.until
  return (
    <svg
      className={classes.svg}
      width={place.width}
      height={axisRowPx}
      role="img"
      aria-label={ticks.map(({ label }) => label).join(', ')}
    >
      <line
        x1={place.gutter}
        x2={place.width - place.right}
        y1={axisRowPx - 1}
        y2={axisRowPx - 1}
        className={classes.frame}
      />
      {ticks.map(({ at, label }) => {
        const hidden = showsNow && Math.abs(left(at) - nowX) < 26
        return (
          <g key={at}>
            <line x1={left(at)} x2={left(at)} y1={axisRowPx - 7} y2={axisRowPx} className={classes.frame} />
            <text x={left(at)} y={16} textAnchor={anchorOf(at)} className={classes.tickStrong}>
              {label}
            </text>
            {!hidden && (
              <text x={left(at)} y={33} textAnchor={anchorOf(at)} className={classes.tick}>
                {below?.(at)}
              </text>
            )}
          </g>
        )
      })}
      {showsNow && (
        <g>
          <line x1={nowX} x2={nowX} y1={38} y2={axisRowPx} className={classes.now} />
          <text x={nowX} y={34} textAnchor="middle" className={classes.nowText}>
            {nowWord}
          </text>
        </g>
      )}
    </svg>
  )
}
