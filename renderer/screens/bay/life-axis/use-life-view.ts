import { useState } from 'react'
import { moved, type TimeSpan, within, zoomed } from '../../../charts/time-view.ts'
import type { Spans } from './span.ts'

export const presets = ['firstWeek', 'toCovering', 'all'] as const
export type Preset = (typeof presets)[number]

/** Which stretch of the life is shown. A preset follows the life as it grows; anything else stays where it was put. */
export function useLifeView(spans: Spans) {
  const [preset, setPreset] = useState<Preset | null>('all')
  const [free, setFree] = useState<TimeSpan>(spans.all)
  const chosen = preset === null ? free : (spans[preset] ?? spans.all)
  const view = within(chosen, spans.all)
  const show = (span: TimeSpan) => {
    setPreset(null)
    setFree(within(span, spans.all))
  }
  const middle = (view.from + view.until) / 2
  return {
    view,
    preset,
    setPreset,
    show,
    closer: () => show(zoomed(view, spans.all, 0.5, middle)),
    wider: () => show(zoomed(view, spans.all, 2, middle)),
    earlier: () => show(moved(view, spans.all, -0.5)),
    later: () => show(moved(view, spans.all, 0.5)),
  }
}
