import type { SeriesQuantity } from '#model/record/index.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { coldestOf, lastIndexBy, type Trace, traceOfColumn, traceOfPoints } from './trace.ts'

/** The air of the room in time: parallel arrays, ascending; NaN where a quantity was not read. */
export interface AirLog {
  at: Float64Array
  airC: Float64Array
  rhPercent: Float64Array
  airSpeedMs: Float64Array
  surfaceC: Float64Array
  /** 1 open, 0 closed, NaN not said. */
  openings: Float64Array
  /** Index into `entries`. */
  from: Int32Array
  entries: readonly string[]
}

const roomQuantities = ['airC', 'rhPercent', 'airSpeedMs', 'surfaceC'] as const satisfies SeriesQuantity[]
type RoomQuantity = (typeof roomQuantities)[number]
export type AirQuantity = RoomQuantity | 'openings'

interface AirSource {
  /** One for all rows, or one for each. */
  entries: readonly string[]
  at: ArrayLike<number>
  columns: Partial<Record<AirQuantity, ArrayLike<number>>>
}

/** Returns the air of the room from typed readings and loggers, one row an instant and source, oldest first. */
export function airLogOf(story: BayStory): AirLog {
  const sources = [...loggedSources(story), ...typedSource(story)]
  const rows = sources.reduce((sum, { at }) => sum + at.length, 0)
  const log: AirLog = {
    at: new Float64Array(rows),
    airC: new Float64Array(rows).fill(Number.NaN),
    rhPercent: new Float64Array(rows).fill(Number.NaN),
    airSpeedMs: new Float64Array(rows).fill(Number.NaN),
    surfaceC: new Float64Array(rows).fill(Number.NaN),
    openings: new Float64Array(rows).fill(Number.NaN),
    from: new Int32Array(rows),
    entries: sources.flatMap(({ entries }) => entries),
  }
  const firstEntry = sources.map((_, k) =>
    sources.slice(0, k).reduce((sum, { entries }) => sum + entries.length, 0),
  )
  const next = sources.map(() => 0)
  for (let n = 0; n < rows; n++) {
    let k = -1
    for (let candidate = 0; candidate < sources.length; candidate++) {
      const at = sources[candidate]!.at[next[candidate]!]
      if (at !== undefined && (k < 0 || at < sources[k]!.at[next[k]!]!)) k = candidate
    }
    const { at, columns, entries } = sources[k]!
    const row = next[k]!++
    log.at[n] = at[row]!
    log.from[n] = firstEntry[k]! + (entries.length > 1 ? row : 0)
    for (const quantity of airQuantities) {
      const column = columns[quantity]
      if (column !== undefined) log[quantity][n] = column[row]!
    }
  }
  return log
}

const airQuantities = [...roomQuantities, 'openings'] as const

/** Traces already taken from a log: a dozen rules ask for the same few. */
const taken = new WeakMap<AirLog, Partial<Record<AirQuantity, Trace>>>()

/** Returns the readings of one quantity, without the rows that do not hold it. */
export function airTrace(log: AirLog, quantity: AirQuantity): Trace {
  const traces = taken.get(log) ?? {}
  taken.set(log, traces)
  traces[quantity] ??= takeTrace(log, quantity)
  return traces[quantity]
}

function takeTrace(log: AirLog, quantity: AirQuantity): Trace {
  const column = log[quantity]
  let count = 0
  for (let i = 0; i < column.length; i++) if (!Number.isNaN(column[i]!)) count++
  if (count === column.length) return { at: log.at, value: column, from: log.from, entries: log.entries }
  const at = new Float64Array(count)
  const value = new Float64Array(count)
  const from = new Int32Array(count)
  for (let i = 0, n = 0; i < column.length; i++) {
    if (Number.isNaN(column[i]!)) continue
    at[n] = log.at[i]!
    value[n] = column[i]!
    from[n] = log.from[i]!
    n++
  }
  return { at, value, from, entries: log.entries }
}

/** Returns the outside air: a stand-in for the room only where nobody read the room. */
export function outsideTrace(story: BayStory, maxGapMs: number): Trace {
  const columns = story.series
    .filter(({ quantity }) => quantity === 'outsideC')
    .map(({ at, value, entry }) => traceOfColumn(at, value, entry))
  const typed = entriesOf(story, 'air-read')
    .filter(({ body }) => body.place === 'outside')
    .map(({ id, happenedAt, body }) => ({ at: happenedAt, value: body.airC, entry: id }))
  return coldestOf([...columns, traceOfPoints(typed)], maxGapMs)
}

/** The row nearest to an instant that holds the quantity, not further away than `withinMs`; else null. */
export function nearestReading(
  trace: Trace,
  instant: number,
  withinMs: number,
): { value: number; entry: string; at: number } | null {
  const before = lastIndexBy(trace.at, instant)
  let best: number | null = null
  for (const i of [before, before + 1]) {
    const at = trace.at[i]
    if (at === undefined || Math.abs(at - instant) > withinMs) continue
    if (best === null || Math.abs(at - instant) < Math.abs(trace.at[best]! - instant)) best = i
  }
  if (best === null) return null
  return { value: trace.value[best]!, entry: trace.entries[trace.from[best]!]!, at: trace.at[best]! }
}

function typedSource(story: BayStory): AirSource[] {
  const read = entriesOf(story, 'air-read').filter(({ body }) => body.place !== 'outside')
  if (read.length === 0) return []
  const column = (value: (body: (typeof read)[number]['body']) => number | undefined) =>
    read.map(({ body }) => value(body) ?? Number.NaN)
  return [
    {
      entries: read.map(({ id }) => id),
      at: read.map(({ happenedAt }) => happenedAt),
      columns: {
        airC: column(({ airC }) => airC),
        rhPercent: column(({ rhPercent }) => rhPercent),
        airSpeedMs: column(({ airSpeedMs }) => airSpeedMs),
        surfaceC: column(({ surfaceC }) => surfaceC),
        openings: column(({ openings }) =>
          openings === undefined ? undefined : Number(openings === 'open'),
        ),
      },
    },
  ]
}

/** The columns of one file are joined where they share an instant; otherwise each column stands for itself. */
function loggedSources(story: BayStory): AirSource[] {
  const byEntry = new Map<string, AirSource[]>()
  for (const { entry, quantity, at, value } of story.series) {
    const room = roomQuantities.find((name) => name === quantity)
    if (room === undefined) continue
    const sources = byEntry.get(entry) ?? []
    byEntry.set(entry, sources)
    const same = sources.find((source) => source.columns[room] === undefined && sameInstants(source.at, at))
    if (same !== undefined) same.columns[room] = value
    else sources.push({ entries: [entry], at, columns: { [room]: value } })
  }
  return [...byEntry.values()].flat()
}

function sameInstants(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}
