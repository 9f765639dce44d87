import { ActionIcon } from '@mantine/core'
import { useElementSize } from '@mantine/hooks'
import { type PointerEvent, type ReactNode, useRef, useState } from 'react'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { floorsWords as words } from '../../../app/words/floors.ts'
import { rectangleBetween } from '../draw/corners.ts'
import { DraftShape } from '../draw/draft-shape.tsx'
import { type Snapped, snap } from '../draw/snap.ts'
import type { BayDrawing } from '../draw/use-bay-drawing.ts'
import { AlertPins } from './alert-pins.tsx'
import { BayLabels, BayShapes, type PlanBay } from './bay-shapes.tsx'
import { Grid, ScaleBar } from './ground.tsx'
import { Hatches } from './hatches.tsx'
import { type Layers, LowerLayers, UpperLayers } from './layers.tsx'
import classes from './plan.module.css'
import { usePlanView, useWheelZoom } from './use-plan-view.ts'
import { toFloor } from './view.ts'

interface FloorPlanProps {
  floor: ProjectOutline['floors'][number]
  zones: ProjectOutline['zones']
  bays: readonly PlanBay[]
  facts: readonly StoryEntry[]
  layers: Layers
  chosen: string | null
  onChoose: (bay: string) => void
  drawing: BayDrawing | null
  /** The outline that is drawn cannot stand. */
  wrong: boolean
}

const catchPx = 12
const dragPx = 4

/** The plan of a floor, to scale: seen, moved, and drawn on. */
export function FloorPlan({
  floor,
  zones,
  bays,
  facts,
  layers,
  chosen,
  onChoose,
  drawing,
  wrong,
}: FloorPlanProps) {
  const { ref, width, height } = useElementSize()
  const size = { width: Math.max(1, width), height: Math.max(1, height) }
  const [element, setElement] = useState<SVGSVGElement | null>(null)
  const corners = bays.flatMap(({ body }) => body.outline)
  const plan = usePlanView([...corners, ...baseCorners(floor)], size)
  const { view } = plan
  useWheelZoom(element, plan.zoom)

  const placeOf = (event: PointerEvent): Snapped => {
    const frame = element?.getBoundingClientRect()
    const place = { x: event.clientX - (frame?.left ?? 0), y: event.clientY - (frame?.top ?? 0) }
    return snap(
      toFloor(place, view, size),
      bays.map(({ body }) => body.outline),
      catchPx / view.pxPerM,
    )
  }
  const hand = useHand({ plan, drawing, placeOf })
  const shared = { view, size }
  const layered = { floor, zones, bays, facts, layers, ...shared }

  return (
    <div className={classes.frame} ref={ref}>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing that is moved about has no element of its own */}
      <svg
        ref={setElement}
        className={`${classes.plan} ${drawing === null ? '' : classes.drawing}`}
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plan is moved by keys
        tabIndex={0}
        aria-label={words.plan.label(floor.body.name)}
        onKeyDown={plan.onKeyDown}
        {...hand}
      >
        <Hatches />
        <Grid {...shared} />
        <BayShapes {...shared} bays={bays} chosen={chosen} asGround={drawing !== null} onChoose={onChoose} />
        <LowerLayers {...layered} />
        <UpperLayers {...layered} />
        <BayLabels {...shared} bays={bays} quiet={drawing !== null} />
        {layers.alerts && <AlertPins {...shared} bays={bays} onChoose={onChoose} />}
        <ScaleBar {...shared} />
        {drawing !== null && <DraftShape {...shared} drawing={drawing} wrong={wrong} placeOf={placeOf} />}
      </svg>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for boxes of a form */}
      <div className={classes.tools} role="group" aria-label={words.plan.tools}>
        <Tool label={words.plan.zoomIn} onClick={plan.zoomIn}>
          <path d="M4 12h16M12 4v16" />
        </Tool>
        <Tool label={words.plan.zoomOut} onClick={plan.zoomOut}>
          <path d="M4 12h16" />
        </Tool>
        <Tool label={words.plan.fit} onClick={plan.showWhole}>
          <path d="M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5" />
        </Tool>
      </div>
    </div>
  )
}

function Tool({ label, onClick, children }: { label: string; onClick: () => void; children: ReactNode }) {
  return (
    <ActionIcon variant="default" size={44} aria-label={label} title={label} onClick={onClick}>
      <svg
        width={22}
        height={22}
        viewBox="0 0 24 24"
        fill="none"
        stroke="currentColor"
        strokeWidth={2.2}
        aria-hidden
      >
        {children}
      </svg>
    </ActionIcon>
  )
}

function baseCorners(floor: ProjectOutline['floors'][number]) {
  return (floor.body.baseJoints ?? []).flatMap(({ fromX, fromY, toX, toY }) => [
    { x: fromX, y: fromY },
    { x: toX, y: toY },
  ])
}

interface HandProps {
  plan: ReturnType<typeof usePlanView>
  drawing: BayDrawing | null
  placeOf: (event: PointerEvent) => Snapped
}

/** What the pointer does on the ground: moves the plan, drags a rectangle, or sets corner after corner. */
function useHand({ plan, drawing, placeOf }: HandProps) {
  const down = useRef<{ x: number; y: number; place: Snapped; dragged: boolean } | null>(null)
  const draws = drawing?.tapping === true && drawing.corners.length === 0
  const rectangle = useRef(false)
  return {
    onPointerDown: (event: PointerEvent<SVGSVGElement>) => {
      if (event.button !== 0) return
      down.current = { x: event.clientX, y: event.clientY, place: placeOf(event), dragged: false }
      rectangle.current = draws
      if (!draws) plan.panning.begin(event)
    },
    onPointerMove: (event: PointerEvent<SVGSVGElement>) => {
      const from = down.current
      if (from === null) return
      if (!from.dragged && Math.hypot(event.clientX - from.x, event.clientY - from.y) < dragPx) return
      if (!from.dragged) event.currentTarget.setPointerCapture(event.pointerId)
      from.dragged = true
      if (rectangle.current) drawing?.setCorners(rectangleBetween(from.place, placeOf(event)))
      else plan.panning.move(event)
    },
    onPointerUp: (event: PointerEvent<SVGSVGElement>) => {
      const from = down.current
      down.current = null
      plan.panning.end()
      if (from === null || drawing === null) return
      if (from.dragged) {
        if (rectangle.current) drawing.setTapping(false)
      } else if (drawing.tapping) drawing.setCorners([...drawing.corners, placeOf(event)])
    },
    onPointerCancel: () => {
      down.current = null
      plan.panning.end()
    },
  }
}
