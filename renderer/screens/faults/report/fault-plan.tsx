import { ActionIcon } from '@mantine/core'
import { useElementSize } from '@mantine/hooks'
import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef, useState } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { Point } from '#model/movement/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { floorsWords } from '../../../app/words/floors.ts'
import { numberText } from '../../../parts/number-text.ts'
import { gridM, snap } from '../../floors/draw/snap.ts'
import { BayLabels, BayShapes, type PlanBay } from '../../floors/plan/bay-shapes.tsx'
import { Grid, ScaleBar } from '../../floors/plan/ground.tsx'
import { Hatches } from '../../floors/plan/hatches.tsx'
import {
  type LayerName,
  type Layers,
  LowerLayers,
  layerNames,
  UpperLayers,
} from '../../floors/plan/layers.tsx'
import plan from '../../floors/plan/plan.module.css'
import { usePlanView, useWheelZoom } from '../../floors/plan/use-plan-view.ts'
import { type PlanView, type Size, toFloor, toScreen } from '../../floors/plan/view.ts'
import { type Place, tappedAt, withoutPoint, withPointAt } from './place.ts'
import classes from './report.module.css'

const words = faultsWords.place

/** What bounds a fault or may have led to it; tests and other defects would only stand in the way. */
const shown: readonly LayerName[] = ['joints', 'baseJoints', 'heating', 'defects']
const layers = Object.fromEntries(layerNames.map((name) => [name, shown.includes(name)])) as Layers

interface FaultPlanProps {
  floor: ProjectOutline['floors'][number]
  zones: ProjectOutline['zones']
  bays: readonly PlanBay[]
  facts: readonly StoryEntry[]
  place: Place
  onPlace: (place: Place) => void
}

const dragPx = 4
const catchPx = 10

/** The plan of a floor with the place of a fault on it: tapped, dragged, or moved by keys. */
export function FaultPlan({ floor, zones, bays, facts, place, onPlace }: FaultPlanProps) {
  const { ref, width, height } = useElementSize()
  const size = { width: Math.max(1, width), height: Math.max(1, height) }
  const [element, setElement] = useState<SVGSVGElement | null>(null)
  const seen = usePlanView(
    bays.flatMap(({ body }) => body.outline),
    size,
  )
  const { view } = seen
  useWheelZoom(element, seen.zoom)
  const placeOf = (event: PointerEvent): Point => {
    const frame = element?.getBoundingClientRect()
    const at = { x: event.clientX - (frame?.left ?? 0), y: event.clientY - (frame?.top ?? 0) }
    const outlines = bays.map(({ body }) => body.outline)
    return snap(toFloor(at, view, size), outlines, catchPx / view.pxPerM)
  }
  const down = useRef<{ x: number; y: number; dragged: boolean } | null>(null)
  const shared = { view, size }
  const layered = { floor, zones, bays, facts, layers, ...shared }
  return (
    <div className={`${plan.frame} ${classes.plan}`} ref={ref}>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing that is moved about has no element of its own */}
      <svg
        ref={setElement}
        className={`${plan.plan} ${plan.drawing}`}
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plan is moved by keys
        tabIndex={0}
        aria-label={words.planLabel(floor.body.name)}
        onKeyDown={seen.onKeyDown}
        onPointerDown={(event) => {
          if (event.button !== 0) return
          down.current = { x: event.clientX, y: event.clientY, dragged: false }
          seen.panning.begin(event)
        }}
        onPointerMove={(event) => {
          const from = down.current
          if (from === null) return
          if (!from.dragged && Math.hypot(event.clientX - from.x, event.clientY - from.y) < dragPx) return
          if (!from.dragged) event.currentTarget.setPointerCapture(event.pointerId)
          from.dragged = true
          seen.panning.move(event)
        }}
        onPointerUp={(event) => {
          const from = down.current
          down.current = null
          seen.panning.end()
          if (from !== null && !from.dragged) onPlace(tappedAt(place, placeOf(event)))
        }}
        onPointerCancel={() => {
          down.current = null
          seen.panning.end()
        }}
      >
        <Hatches />
        <Grid {...shared} />
        <BayShapes {...shared} bays={bays} chosen={null} asGround onChoose={() => undefined} />
        <LowerLayers {...layered} />
        <UpperLayers {...layered} />
        <BayLabels {...shared} bays={bays} quiet />
        <ScaleBar {...shared} />
        <PlaceShapeDrawing place={place} {...shared} />
        {place.points.map((point, i) => (
          <Handle
            // biome-ignore lint/suspicious/noArrayIndexKey: a point has no name but its place
            key={i}
            index={i}
            point={point}
            at={toScreen(point, view, size)}
            placeOf={placeOf}
            onMove={(next) => onPlace(withPointAt(place, i, next))}
            onRemove={() => onPlace(withoutPoint(place, i))}
          />
        ))}
      </svg>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for boxes of a form */}
      <div className={plan.tools} role="group" aria-label={floorsWords.plan.tools}>
        <Tool label={floorsWords.plan.zoomIn} onClick={seen.zoomIn}>
          <path d="M4 12h16M12 4v16" />
        </Tool>
        <Tool label={floorsWords.plan.zoomOut} onClick={seen.zoomOut}>
          <path d="M4 12h16" />
        </Tool>
        <Tool label={floorsWords.plan.fit} onClick={seen.showWhole}>
          <path d="M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5" />
        </Tool>
      </div>
    </div>
  )
}

/** The place as it is drawn: a cross, a line, or an area with its edge. */
function PlaceShapeDrawing({ place, view, size }: { place: Place; view: PlanView; size: Size }) {
  const at = place.points.map((point) => toScreen(point, view, size))
  const path = at.map(({ x, y }) => `${x},${y}`).join(' ')
  if (place.shape === 'line') return <polyline points={path} className={classes.line} pointerEvents="none" />
  if (place.shape === 'area') return <polygon points={path} className={classes.area} pointerEvents="none" />
  return at.map(({ x, y }) => (
    <path key={`${x} ${y}`} d={`M${x - 18} ${y}h36M${x} ${y - 18}v36`} className={classes.line} />
  ))
}

interface HandleProps {
  index: number
  point: Point
  at: Point
  placeOf: (event: PointerEvent) => Point
  onMove: (next: Point) => void
  onRemove: () => void
}

const arrows: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}

function Handle({ index, point, at, placeOf, onMove, onRemove }: HandleProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = arrows[event.key]
    const step = event.shiftKey ? 1 : gridM
    if (arrow !== undefined) onMove({ x: point.x + arrow.x * step, y: point.y + arrow.y * step })
    else if (event.key === 'Delete' || event.key === 'Backspace') onRemove()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a handle on a drawing cannot be an HTML button
    <g
      role="button"
      tabIndex={0}
      className={plan.corner}
      aria-label={words.handle(index + 1, numberText(point.x, 3), numberText(point.y, 3))}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        event.stopPropagation()
        event.currentTarget.setPointerCapture(event.pointerId)
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return
        event.stopPropagation()
        onMove(placeOf(event))
      }}
      onPointerUp={(event) => event.stopPropagation()}
    >
      <circle cx={at.x} cy={at.y} r={20} className={plan.handleTarget} />
      <circle cx={at.x} cy={at.y} r={8} className={plan.handle} />
    </g>
  )
}

function Tool({ label, onClick, children }: { label: string; onClick: () => void; children: ReactNode }) {
  return (
    <ActionIcon variant="default" size={44} aria-label={label} title={label} onClick={onClick}>
      <svg width={22} height={22} viewBox="0 0 24 24" className={classes.toolDrawing} aria-hidden>
        {children}
      </svg>
    </ActionIcon>
  )
}
