import { type KeyboardEvent, type PointerEvent, useState } from 'react'
import type { Point } from '#model/movement/index.ts'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { numberText } from '../../../parts/number-text.ts'
import classes from '../plan/plan.module.css'
import { type PlanView, type Size, toScreen } from '../plan/view.ts'
import { withCornerAt, withoutCorner, withSideSplit } from './corners.ts'
import { gridM, millimetres, type Snapped } from './snap.ts'
import type { BayDrawing } from './use-bay-drawing.ts'

interface DraftShapeProps {
  drawing: BayDrawing
  wrong: boolean
  view: PlanView
  size: Size
  /** The place of the pointer on the floor, caught by what is near. */
  placeOf: (event: PointerEvent) => Snapped
}

/** The outline that is being drawn, with a handle at every corner and a mark in every side. */
export function DraftShape({ drawing, wrong, view, size, placeOf }: DraftShapeProps) {
  const { corners, setCorners, tapping, setTapping } = drawing
  const [held, setHeld] = useState<Snapped | null>(null)
  const places = corners.map((corner) => toScreen(corner, view, size))
  const path = places.map(({ x, y }) => `${x},${y}`).join(' ')
  return (
    <g>
      <polygon
        points={path}
        className={`${classes.draft} ${wrong ? classes.wrong : ''}`}
        pointerEvents="none"
      />
      <Sides corners={corners} places={places} />
      {corners.length >= 3 &&
        !tapping &&
        places.map((from, i) => (
          <Split
            // biome-ignore lint/suspicious/noArrayIndexKey: a side has no name but its place
            key={i}
            index={i}
            from={from}
            to={places[(i + 1) % places.length]!}
            onSplit={() => setCorners(withSideSplit(corners, i))}
          />
        ))}
      {places.map((place, i) => (
        <Handle
          // biome-ignore lint/suspicious/noArrayIndexKey: a corner has no name but its place
          key={i}
          index={i}
          place={place}
          corner={corners[i]!}
          onMove={(next) => setCorners(withCornerAt(corners, i, next))}
          onRemove={() => setCorners(withoutCorner(corners, i))}
          onTap={() => i === 0 && corners.length >= 3 && setTapping(false)}
          placeOf={placeOf}
          onHold={setHeld}
        />
      ))}
      {held !== null && held.to !== 'grid' && <Catch place={toScreen(held, view, size)} />}
    </g>
  )
}

function Sides({ corners, places }: { corners: readonly Point[]; places: readonly Point[] }) {
  return places.map((from, i) => {
    const to = places[(i + 1) % places.length]!
    const [a, b] = [corners[i]!, corners[(i + 1) % corners.length]!]
    const length = Math.hypot(to.x - from.x, to.y - from.y)
    if (length < 52 || places.length < 2) return null
    const upright = Math.abs(to.x - from.x) < Math.abs(to.y - from.y)
    return (
      <text
        // biome-ignore lint/suspicious/noArrayIndexKey: a side has no name but its place
        key={i}
        x={(from.x + to.x) / 2 + (upright ? 26 : 0)}
        y={(from.y + to.y) / 2 + (upright ? 4 : -10)}
        className={`${classes.side} ${classes.label}`}
        aria-hidden
      >
        {numberText(Math.hypot(b.x - a.x, b.y - a.y))} m
      </text>
    )
  })
}

interface HandleProps {
  index: number
  place: Point
  corner: Point
  onMove: (next: Point) => void
  onRemove: () => void
  onTap: () => void
  placeOf: (event: PointerEvent) => Snapped
  onHold: (held: Snapped | null) => void
}

const arrows: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}

function Handle({ index, place, corner, onMove, onRemove, onTap, placeOf, onHold }: HandleProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = arrows[event.key]
    const step = event.shiftKey ? 1 : gridM
    if (arrow !== undefined) {
      onMove({ x: millimetres(corner.x + arrow.x * step), y: millimetres(corner.y + arrow.y * step) })
    } else if (event.key === 'Delete' || event.key === 'Backspace') onRemove()
    else if (event.key === 'Enter' || event.key === ' ') onTap()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a handle on a drawing cannot be an HTML button
    <g
      role="button"
      tabIndex={0}
      className={classes.corner}
      aria-label={words.drawing.corner(index + 1, numberText(corner.x, 3), numberText(corner.y, 3))}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        event.stopPropagation()
        event.currentTarget.setPointerCapture(event.pointerId)
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return
        event.stopPropagation()
        const next = placeOf(event)
        onHold(next)
        onMove(next)
      }}
      onPointerUp={(event) => {
        event.stopPropagation()
        onHold(null)
        onTap()
      }}
    >
      <circle cx={place.x} cy={place.y} r={20} className={classes.handleTarget} />
      <circle cx={place.x} cy={place.y} r={8} className={classes.handle} />
    </g>
  )
}

function Split({ index, from, to, onSplit }: { index: number; from: Point; to: Point; onSplit: () => void }) {
  const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2]
  if (Math.hypot(to.x - from.x, to.y - from.y) < 60) return null
  return (
    // biome-ignore lint/a11y/useSemanticElements: a mark on a drawing cannot be an HTML button
    <g
      role="button"
      tabIndex={0}
      className={classes.corner}
      aria-label={words.drawing.split(index + 1)}
      onPointerDown={(event) => event.stopPropagation()}
      onClick={(event) => {
        event.stopPropagation()
        onSplit()
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return
        event.preventDefault()
        event.stopPropagation()
        onSplit()
      }}
    >
      <circle cx={x} cy={y} r={14} className={classes.handleTarget} />
      <path d={`M${x} ${y - 6}l6 6-6 6-6-6z`} className={classes.split} />
    </g>
  )
}

function Catch({ place }: { place: Point }) {
  return <circle cx={place.x} cy={place.y} r={14} className={classes.catch} pointerEvents="none" />
}
