import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'

/** Below this share of the area a sheet leaves the bay open where it hurts. Our judgement. */
export const wholePercent = 95

/** One stretch under one sheet. */
export interface CoverSpan {
  from: number
  /** Null while the sheet lies. */
  until: number | null
  on: StoryEntryOf<'sheet-on'>
  off: StoryEntryOf<'sheet-off'> | null
  /** False for a sheet that leaves part of the bay open: it does not count as covered. */
  whole: boolean
}

/** A stretch without a whole sheet. */
export interface OpenSpan {
  from: number
  /** Null while the bay still lies open. */
  until: number | null
  /** What opened it; null when it never was covered. */
  off: StoryEntryOf<'sheet-off'> | null
  /** What closed it. */
  on: StoryEntryOf<'sheet-on'> | null
}

/** Returns the sheets in order of time. A new sheet over an old one begins a new span; an "off" without "on" says nothing. */
export function coverSpans(story: BayStory): CoverSpan[] {
  const events = [...entriesOf(story, 'sheet-on'), ...entriesOf(story, 'sheet-off')].sort(
    (a, b) => a.happenedAt - b.happenedAt || (a.kind === 'sheet-off' ? -1 : 1),
  )
  const spans: CoverSpan[] = []
  let lying: CoverSpan | null = null
  for (const event of events) {
    if (lying !== null) {
      lying.until = event.happenedAt
      if (event.kind === 'sheet-off') lying.off = event
      lying = null
    }
    if (event.kind === 'sheet-on') {
      const whole = event.body.coveredPercent >= wholePercent
      lying = { from: event.happenedAt, until: null, on: event, off: null, whole }
      spans.push(lying)
    }
  }
  return spans
}

/** Returns the stretches from `from` on during which no whole sheet lay. */
export function openSpans(spans: readonly CoverSpan[], from: number): OpenSpan[] {
  const open: OpenSpan[] = []
  let since: number | null = from
  let off: StoryEntryOf<'sheet-off'> | null = null
  for (const span of spans) {
    if (!span.whole) continue
    const end = span.until ?? Number.POSITIVE_INFINITY
    if (end <= from) continue
    if (since !== null && span.from > since) open.push({ from: since, until: span.from, off, on: span.on })
    since = span.until
    off = span.off
    if (since === null) break
  }
  if (since !== null) open.push({ from: since, until: null, off, on: null })
  return open
}

/** The open span that an instant falls into, or null when a whole sheet lay then. */
export function openAt(spans: readonly OpenSpan[], instant: number): OpenSpan | null {
  return (
    spans.find(({ from, until }) => from <= instant && instant < (until ?? Number.POSITIVE_INFINITY)) ?? null
  )
}
