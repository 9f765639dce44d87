import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react'
import type { Point } from '#model/movement/index.ts'
import { fitted, type PlanView, pannedBy, type Size, scaledBy } from './view.ts'

const panPx = 60
const zoomStep = 1.25

/** The view of a plan, moved by mouse, wheel and keys. It fits the floor until somebody moves it. */
export function usePlanView(points: readonly Point[], size: Size) {
  const [moved, setMoved] = useState<PlanView | null>(null)
  const view = moved ?? fitted(points, size)
  const middle = { x: size.width / 2, y: size.height / 2 }
  const zoom = (factor: number, place: Point = middle) => setMoved(scaledBy(view, factor, place, size))
  const fit = () => setMoved(null)
  const drag = useRef<{ x: number; y: number; view: PlanView } | null>(null)

  const keys: Record<string, () => void> = {
    ArrowLeft: () => setMoved(pannedBy(view, panPx, 0)),
    ArrowRight: () => setMoved(pannedBy(view, -panPx, 0)),
    ArrowUp: () => setMoved(pannedBy(view, 0, panPx)),
    ArrowDown: () => setMoved(pannedBy(view, 0, -panPx)),
    '+': () => zoom(zoomStep),
    '=': () => zoom(zoomStep),
    '-': () => zoom(1 / zoomStep),
    '0': fit,
  }

  return {
    view,
    fit,
    zoomIn: () => zoom(zoomStep),
    zoomOut: () => zoom(1 / zoomStep),
    zoom,
    onKeyDown: (event: KeyboardEvent) => {
      const act = keys[event.key]
      if (act === undefined || event.ctrlKey || event.metaKey || event.altKey) return
      event.preventDefault()
      act()
    },
    panning: {
      begin: (event: PointerEvent) => {
        drag.current = { x: event.clientX, y: event.clientY, view }
      },
      move: (event: PointerEvent): boolean => {
        const from = drag.current
        if (from === null) return false
        setMoved(pannedBy(from.view, event.clientX - from.x, event.clientY - from.y))
        return true
      },
      end: () => {
        drag.current = null
      },
    },
  }
}

/** The wheel over the plan changes its size and does not scroll the page; React's own listener could not prevent that. */
export function useWheelZoom(
  element: SVGSVGElement | null,
  zoom: (factor: number, place: Point) => void,
): void {
  const latest = useRef(zoom)
  useEffect(() => {
    latest.current = zoom
  })
  useEffect(() => {
    if (element === null) return
    const turn = (event: WheelEvent) => {
      event.preventDefault()
      const frame = element.getBoundingClientRect()
      const place = { x: event.clientX - frame.left, y: event.clientY - frame.top }
      latest.current(Math.exp(-event.deltaY * 0.0015), place)
    }
    element.addEventListener('wheel', turn, { passive: false })
    return () => element.removeEventListener('wheel', turn)
  }, [element])
}
