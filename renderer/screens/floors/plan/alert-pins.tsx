import { useQuery } from '@tanstack/react-query'
import type { KeyboardEvent } from 'react'
import { type Alert, severities } from '#model/watch/alert.ts'
import { isOpen, rankOf } from '#model/watch/index.ts'
import type { TodayLine } from '#model/watch/today.ts'
import { orpc } from '../../../app/client.ts'
import { useJob } from '../../../app/job.tsx'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { SeverityMark } from '../../../parts/severity-mark.tsx'
import type { BayShapesProps } from './bay-shapes.tsx'
import classes from './plan.module.css'
import { toScreen } from './view.ts'

/** The open alerts of a bay, those that press most first. */
export function openAlertsOf(line: TodayLine | undefined): Alert[] {
  return (line?.alerts ?? []).filter(isOpen).toSorted((a, b) => rankOf(a.severity) - rankOf(b.severity))
}

const pinPx = 22
const gapPx = 4
const insetPx = 6

/** One pin an open alert along the upper edge of its bay; as many as there is room for, then how many more. */
export function AlertPins({ bays, view, size, onChoose }: Omit<BayShapesProps, 'chosen' | 'asGround'>) {
  const { id: project } = useJob()
  const { data } = useQuery(orpc.projects.today.queryOptions({ input: { project } }))
  return bays.map(({ id, body }) => {
    const alerts = openAlertsOf(data?.lines.find(({ bay }) => bay === id))
    if (alerts.length === 0) return null
    const corners = body.outline.map((corner) => toScreen(corner, view, size))
    const left = Math.min(...corners.map(({ x }) => x)) + insetPx
    const right = Math.max(...corners.map(({ x }) => x)) - insetPx
    if (right - left < pinPx) return null
    const top = Math.min(...corners.map(({ y }) => y)) + insetPx
    const room = Math.max(1, Math.floor((right - left + gapPx) / (pinPx + gapPx)))
    const shown = alerts.length <= room ? alerts : alerts.slice(0, Math.max(1, room - 1))
    const more = alerts.length - shown.length
    return (
      <g key={id}>
        {shown.map((alert, i) => (
          <Pin
            key={alert.id}
            alert={alert}
            bay={body.name}
            x={left + i * (pinPx + gapPx)}
            y={top}
            onChoose={() => onChoose(id)}
          />
        ))}
        {more > 0 && room > 1 && (
          <text
            x={left + shown.length * (pinPx + gapPx) + pinPx / 2}
            y={top + 16}
            className={`${classes.small} ${classes.label}`}
            aria-hidden
          >
            +{more}
          </text>
        )}
      </g>
    )
  })
}

interface PinProps {
  alert: Alert
  bay: string
  x: number
  y: number
  onChoose: () => void
}

function Pin({ alert, bay, x, y, onChoose }: PinProps) {
  const choose = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return
    event.preventDefault()
    onChoose()
  }
  const label = words.plan.alert(bay, severities[alert.severity], alert.title)
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      role="button"
      tabIndex={0}
      aria-label={label}
      className={classes.pin}
      transform={`translate(${x} ${y})`}
      onClick={onChoose}
      onKeyDown={choose}
    >
      <title>{label}</title>
      <rect width={pinPx} height={pinPx} rx={4} className={classes.chip} />
      <g transform="translate(2 2)" aria-hidden>
        <SeverityMark severity={alert.severity} bare size={18} />
      </g>
    </g>
  )
}

/** The sign for the key beside the plan. */
export function AlertSign() {
  return (
    <g transform="translate(7 0)">
      <SeverityMark severity="act" bare size={18} />
    </g>
  )
}
