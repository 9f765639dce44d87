import type { KeyboardEvent } from 'react'
import type { Alert } from '#model/watch/alert.ts'
import { bayWords } from '../../../app/words/bay.ts'
import chart from '../../../charts/charts.module.css'
import type { StripPlace } from '../../../charts/time-strip.tsx'
import { type TimeSpan, xOf } from '../../../charts/time-view.ts'
import { SeverityMark } from '../../../parts/severity-mark.tsx'
import classes from './life-axis.module.css'
import { pinsOf } from './pins.ts'

interface AlertRowProps {
  alerts: readonly Alert[]
  view: TimeSpan
  place: StripPlace
  chosen: string | null
  wordsOf: (alert: Alert) => string
  onChoose: (alerts: readonly Alert[]) => void
}

const heightPx = 40

/** Alerts pinned where they began; those that stand too close together share a pin with their number. */
export function AlertRow({ alerts, view, place, chosen, wordsOf, onChoose }: AlertRowProps) {
  const plotPx = place.width - place.gutter - place.right
  const pins = pinsOf(
    alerts,
    (at) => (at < view.from || at > view.until ? null : place.gutter + xOf(at, view, plotPx)),
    26,
  )
  return (
    // biome-ignore lint/a11y/useSemanticElements: a part of a drawing cannot be a fieldset
    <svg
      className={chart.svg}
      width={place.width}
      height={heightPx}
      role="group"
      aria-label={bayWords.axis.alerts}
    >
      <text x={0} y={25} className={classes.laneName}>
        {bayWords.axis.alerts}
      </text>
      {pins.map(({ x, alerts: shared }) => {
        const [first] = shared
        if (first === undefined) return null
        const label = shared.map(wordsOf).join('; ')
        const open = () => onChoose(shared)
        return (
          <g key={first.id}>
            {/* biome-ignore lint/a11y/useSemanticElements: a pin in a drawing cannot be an HTML button */}
            <g
              role="button"
              tabIndex={0}
              aria-label={label}
              aria-pressed={shared.some(({ id }) => id === chosen)}
              className={`${chart.mark} ${shared.every(({ until, answeredBy }) => until !== null || answeredBy !== null) ? classes.past : ''}`}
              onClick={open}
              onKeyDown={(event: KeyboardEvent) => {
                if (event.key !== 'Enter' && event.key !== ' ') return
                event.preventDefault()
                open()
              }}
            >
              <title>{label}</title>
              <circle cx={x} cy={16} r={15} className={chart.halo} />
              <g transform={`translate(${x - 11} 5)`}>
                <SeverityMark severity={first.severity} bare size={22} />
              </g>
              <line x1={x} x2={x} y1={28} y2={heightPx} className={classes.pinLine} />
            </g>
            {shared.length > 1 && (
              <text x={x + 13} y={15} aria-hidden pointerEvents="none" className={classes.pinCount}>
                {shared.length}
              </text>
            )}
          </g>
        )
      })}
      <line
        x1={place.gutter}
        x2={place.width - place.right}
        y1={heightPx}
        y2={heightPx}
        className={chart.grid}
      />
    </svg>
  )
}
