import { type PointerEvent, type ReactNode, type Ref, useRef, useState } from 'react'
import classes from './stage.module.css'
import type { StripPlace } from './time-strip.tsx'
import { instantAt, type TimeSpan, xOf } from './time-view.ts'

interface StageProps {
  ref: Ref<HTMLDivElement>
  view: TimeSpan
  place: StripPlace
  cursor: number | null
  onCursor: (at: number | null) => void
  /** Dragged across: look closer at this stretch. */
  onStretch: (span: TimeSpan) => void
  children: ReactNode
}

const dragPx = 8

/** What all strips share: one cursor through them all, and dragging across to look closer. */
export function Stage({ ref, view, place, cursor, onCursor, onStretch, children }: StageProps) {
  const plotPx = place.width - place.gutter - place.right
  const [dragged, setDragged] = useState<{ from: number; until: number } | null>(null)
  const down = useRef<number | null>(null)
  const inPlot = (event: PointerEvent<HTMLDivElement>) => {
    const x = event.clientX - event.currentTarget.getBoundingClientRect().left - place.gutter
    return Math.min(plotPx, Math.max(0, x))
  }
  return (
    <div
      ref={ref}
      className={classes.stage}
      onPointerDown={(event) => {
        if (event.button === 0) down.current = inPlot(event)
      }}
      onPointerMove={(event) => {
        const x = inPlot(event)
        onCursor(instantAt(x, view, plotPx))
        const from = down.current
        if (from === null || event.buttons !== 1) return
        if (dragged === null && Math.abs(x - from) < dragPx) return
        if (dragged === null) event.currentTarget.setPointerCapture(event.pointerId)
        setDragged({ from: Math.min(from, x), until: Math.max(from, x) })
      }}
      onPointerUp={() => {
        down.current = null
        if (dragged === null) return
        setDragged(null)
        onStretch({
          from: instantAt(dragged.from, view, plotPx),
          until: instantAt(dragged.until, view, plotPx),
        })
      }}
      onPointerLeave={() => onCursor(null)}
    >
      {children}
      {cursor !== null && cursor >= view.from && cursor <= view.until && (
        <div className={classes.cursor} style={{ left: place.gutter + xOf(cursor, view, plotPx) }} />
      )}
      {dragged !== null && (
        <div
          className={classes.dragged}
          style={{ left: place.gutter + dragged.from, width: dragged.until - dragged.from }}
        />
      )}
    </div>
  )
}
