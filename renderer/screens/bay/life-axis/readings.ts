import { airTrace } from '#model/watch/facts/air.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import type { Trace } from '#model/watch/facts/trace.ts'
import type { LinePoint } from '../../../charts/thin.ts'
import { gapOf, nearestIndex, thinned } from '../../../charts/thin.ts'
import type { TimeSpan } from '../../../charts/time-view.ts'

export const readingNames = ['air', 'screed', 'outside', 'rh'] as const
export type ReadingName = (typeof readingNames)[number]

/** What was measured around a bay, each quantity with the pause after which its line is not joined. */
export type BayReadings = Readonly<Record<ReadingName, Trace & { gapMs: number }>>

const hourMs = 3_600_000

export function readingsOf({ air, screed, outside }: BayFacts): BayReadings {
  const traces = {
    air: airTrace(air, 'airC'),
    screed: screed.coldest,
    outside,
    rh: airTrace(air, 'rhPercent'),
  }
  return Object.fromEntries(
    readingNames.map((name) => [name, { ...traces[name], gapMs: gapOf(traces[name].at, 6 * hourMs) }]),
  ) as BayReadings
}

/** The line of one quantity for a stretch of time on so many columns of pixels. */
export function lineOf(
  readings: BayReadings,
  name: ReadingName,
  view: TimeSpan,
  columns: number,
): LinePoint[] {
  const { gapMs, ...trace } = readings[name]
  return thinned(trace, view.from, view.until, columns, gapMs)
}

/** The reading at an instant, when there is one near enough. */
export function readingAt(readings: BayReadings, name: ReadingName, at: number): number | null {
  const { at: instants, value, gapMs } = readings[name]
  const i = nearestIndex(instants, at, gapMs / 2)
  return i < 0 ? null : value[i]!
}

/** The entry that brought the reading nearest to an instant. */
export function entryAt(readings: BayReadings, name: ReadingName, at: number): string | null {
  const { at: instants, from, entries, gapMs } = readings[name]
  const i = nearestIndex(instants, at, gapMs / 2)
  return i < 0 ? null : (entries[from[i]!] ?? null)
}
