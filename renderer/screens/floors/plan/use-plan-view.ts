import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react'
import type { Point } from '#model/movement/index.ts'
import { fitted, type PlanView, pannedBy, type Size, scaledBy } from './view.ts'

const panPx = 60
const zoomStep = 1.25
const panKeys: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: panPx, y: 0 },
  ArrowRight: { x: -panPx, y: 0 },
  ArrowUp: { x: 0, y: panPx },
  ArrowDown: { x: 0, y: -panPx },
}
const zoomKeys: Readonly<Record<string, number>> = { '+': zoomStep, '=': zoomStep, '-': 1 / zoomStep }

/** The view of a plan, moved by mouse, wheel and keys. It fits the floor until somebody moves it. */
export function usePlanView(points: readonly Point[], size: Size) {
  const [moved, setMoved] = useState<PlanView | null>(null)
  const view = moved ?? fitted(points, size)
  const middle = { x: size.width / 2, y: size.height / 2 }
  const zoom = (factor: number, place: Point = middle) => setMoved(scaledBy(view, factor, place, size))
  const showWhole = () => setMoved(null)
  const drag = useRef<{ x: number; y: number; view: PlanView } | null>(null)

  return {
    view,
    showWhole,
    zoomIn: () => zoom(zoomStep),
    zoomOut: () => zoom(1 / zoomStep),
    zoom,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return
      const by = panKeys[event.key]
      const factor = zoomKeys[event.key]
      if (by !== undefined) setMoved(pannedBy(view, by.x, by.y))
      else if (factor !== undefined) zoom(factor)
      else if (event.key === '0') showWhole()
      else return
      event.preventDefault()
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
