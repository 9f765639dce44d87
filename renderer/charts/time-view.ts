/** The stretch of time that is shown, and how it is moved. Instants in epoch milliseconds. */
export interface TimeSpan {
  from: number
  until: number
}

const leastSpanMs = 3_600_000

/** Where an instant stands on an axis of this width [px]. */
export function xOf(at: number, { from, until }: TimeSpan, widthPx: number): number {
  return ((at - from) / (until - from)) * widthPx
}

/** The instant that stands at a place of the axis. */
export function instantAt(x: number, { from, until }: TimeSpan, widthPx: number): number {
  return from + (x / Math.max(1, widthPx)) * (until - from)
}

/** Narrows (factor below 1) or widens the span about an instant, never beyond the whole. */
export function zoomed(view: TimeSpan, whole: TimeSpan, factor: number, about: number): TimeSpan {
  const wanted = (view.until - view.from) * factor
  const span = Math.min(whole.until - whole.from, Math.max(leastSpanMs, wanted))
  const share = (about - view.from) / (view.until - view.from)
  return within({ from: about - share * span, until: about + (1 - share) * span }, whole)
}

/** Moves the span by a share of itself, stopping at the ends of the whole. */
export function moved(view: TimeSpan, whole: TimeSpan, share: number): TimeSpan {
  const by = (view.until - view.from) * share
  return within({ from: view.from + by, until: view.until + by }, whole)
}

/** The span, pushed back inside the whole; a span longer than the whole becomes the whole. */
export function within(view: TimeSpan, whole: TimeSpan): TimeSpan {
  const span = view.until - view.from
  if (span >= whole.until - whole.from) return whole
  const from = Math.min(Math.max(view.from, whole.from), whole.until - span)
  return { from, until: from + span }
}

/** What a lane or a band shows of something that lasts; null when it lies outside. Open ends run to the edge. */
export function visiblePart(from: number, until: number | null, view: TimeSpan): TimeSpan | null {
  const end = until ?? Number.POSITIVE_INFINITY
  if (end < view.from || from > view.until) return null
  return { from: Math.max(from, view.from), until: Math.min(end, view.until) }
}
