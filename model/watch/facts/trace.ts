/** Readings of one quantity in time: parallel typed arrays, ascending, with the entry that brought each reading. */
export interface Trace {
  at: Float64Array
  value: Float64Array
  /** Index into `entries`. */
  from: Int32Array
  entries: readonly string[]
}

export interface TracePoint {
  at: number
  value: number
  entry: string
}

export const noTrace: Trace = {
  at: new Float64Array(0),
  value: new Float64Array(0),
  from: new Int32Array(0),
  entries: [],
}

/** A trace of one entry's readings (a logger column). */
export function traceOfColumn(at: readonly number[], value: readonly number[], entry: string): Trace {
  return {
    at: Float64Array.from(at),
    value: Float64Array.from(value),
    from: new Int32Array(at.length),
    entries: [entry],
  }
}

/** A trace of single readings, each an entry of its own; they come oldest first. */
export function traceOfPoints(points: readonly TracePoint[]): Trace {
  return {
    at: Float64Array.from(points, (point) => point.at),
    value: Float64Array.from(points, (point) => point.value),
    from: Int32Array.from(points, (_, i) => i),
    entries: points.map((point) => point.entry),
  }
}

export function pointOf(trace: Trace, i: number): TracePoint {
  return { at: trace.at[i]!, value: trace.value[i]!, entry: trace.entries[trace.from[i]!]! }
}

/** Index of the last reading at or before the instant; −1 when there is none. */
export function lastIndexBy(at: Float64Array, instant: number): number {
  let low = 0
  let high = at.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (at[middle]! <= instant) low = middle + 1
    else high = middle
  }
  return low - 1
}

/** The value at an instant, on the straight line between two readings not further apart than the gap; else null. */
export function valueAt(trace: Trace, instant: number, maxGapMs: number): number | null {
  const i = lastIndexBy(trace.at, instant)
  if (i < 0) return null
  const from = trace.at[i]!
  if (from === instant) return trace.value[i]!
  const until = trace.at[i + 1]
  if (until === undefined || until - from > maxGapMs) return null
  const share = (instant - from) / (until - from)
  return trace.value[i]! + share * (trace.value[i + 1]! - trace.value[i]!)
}

/** The lowest reading in [from, until], or null. */
export function lowestIn(trace: Trace, from: number, until: number): TracePoint | null {
  let best = -1
  for (let i = lastIndexBy(trace.at, from - 1) + 1; i < trace.at.length && trace.at[i]! <= until; i++) {
    if (best < 0 || trace.value[i]! < trace.value[best]!) best = i
  }
  return best < 0 ? null : pointOf(trace, best)
}

/**
 * The coldest of several sensors at every instant any of them was read. Between its own readings a sensor runs straight,
 * but never across a gap: a logger that stopped says nothing, and the others go on.
 */
export function coldestOf(traces: readonly Trace[], maxGapMs: number): Trace {
  const filled = traces.filter((trace) => trace.at.length > 0)
  if (filled.length <= 1) return filled[0] ?? noTrace
  const total = filled.reduce((sum, trace) => sum + trace.at.length, 0)
  const at = new Float64Array(total)
  const value = new Float64Array(total)
  const from = new Int32Array(total)
  const entries: string[] = []
  const firstEntry = filled.map((trace) => entries.push(...trace.entries) - trace.entries.length)
  const next = filled.map(() => 0)
  let count = 0
  for (;;) {
    let instant = Number.POSITIVE_INFINITY
    for (let k = 0; k < filled.length; k++) instant = Math.min(instant, filled[k]!.at[next[k]!] ?? instant)
    if (instant === Number.POSITIVE_INFINITY) break
    let coldest = Number.POSITIVE_INFINITY
    let origin = 0
    for (let k = 0; k < filled.length; k++) {
      const trace = filled[k]!
      const i = next[k]!
      const here = trace.at[i] === instant
      const reading = here ? trace.value[i]! : between(trace, i, instant, maxGapMs)
      if (reading < coldest) {
        coldest = reading
        origin = firstEntry[k]! + trace.from[here ? i : i - 1]!
      }
      if (here) next[k] = i + 1
    }
    at[count] = instant
    value[count] = coldest
    from[count] = origin
    count++
  }
  return {
    at: at.subarray(0, count),
    value: value.subarray(0, count),
    from: from.subarray(0, count),
    entries,
  }
}

/** The value on the line from reading i − 1 to reading i; infinite when the gap is too long or an end is missing. */
function between(trace: Trace, i: number, instant: number, maxGapMs: number): number {
  const from = trace.at[i - 1]
  const until = trace.at[i]
  if (from === undefined || until === undefined || until - from > maxGapMs) return Number.POSITIVE_INFINITY
  const share = (instant - from) / (until - from)
  return trace.value[i - 1]! + share * (trace.value[i]! - trace.value[i - 1]!)
}

/** A stretch of time during which a trace did not keep a limit. */
export interface Breach {
  /** From when it is shown; between two readings the crossing of the straight line. */
  from: number
  /** Until when it is shown; null while the last reading still breaks the limit. */
  until: number | null
  /** It lasted at least this long … */
  leastMs: number
  /** … and at most this long, the time nobody measured around it taken as broken too; null while it lasts. */
  mostMs: number | null
  worst: TracePoint
  readings: number
}

/**
 * The breaches of a limit in [from, until]. Readings further apart than the gap are not joined by a line: then the breach
 * is shown only at the readings, and `mostMs` says how long it may have been.
 */
export function breachesOf(
  trace: Trace,
  keeps: (value: number) => boolean,
  limit: number,
  window: { from: number; until: number },
  maxGapMs: number,
): Breach[] {
  const breaches: Breach[] = []
  const sign = worseSign(keeps, limit)
  let open: Breach | null = null
  let earliest = window.from
  const first = lastIndexBy(trace.at, window.from - 1) + 1
  for (let i = first; i < trace.at.length && trace.at[i]! <= window.until; i++) {
    const at = trace.at[i]!
    const value = trace.value[i]!
    const before = i > 0 ? trace.at[i - 1]! : Number.NEGATIVE_INFINITY
    const joined = at - before <= maxGapMs
    const crossing = joined ? crossingOf(before, trace.value[i - 1]!, at, value, limit) : at
    if (keeps(value)) {
      if (open !== null) {
        const end = joined ? crossing : trace.at[i - 1]!
        open.until = end
        open.leastMs = end - open.from
        open.mostMs = (joined ? crossing : at) - earliest
        breaches.push(open)
        open = null
      }
      continue
    }
    if (open === null) {
      const start = joined ? Math.max(window.from, keeps(trace.value[i - 1]!) ? crossing : before) : at
      earliest = joined ? start : Math.max(window.from, before)
      open = { from: start, until: null, leastMs: 0, mostMs: null, worst: pointOf(trace, i), readings: 0 }
    }
    open.readings++
    if (sign * (value - open.worst.value) > 0) open.worst = pointOf(trace, i)
    open.leastMs = at - open.from
  }
  if (open !== null) breaches.push(open)
  return breaches
}

/** +1 when larger values are worse, −1 when smaller ones are. */
function worseSign(keeps: (value: number) => boolean, limit: number): 1 | -1 {
  return keeps(limit - 1e6) ? 1 : -1
}

function crossingOf(fromAt: number, fromValue: number, at: number, value: number, limit: number): number {
  if (value === fromValue) return at
  const share = (limit - fromValue) / (value - fromValue)
  return fromAt + Math.min(1, Math.max(0, share)) * (at - fromAt)
}

/** Cold spells with a pause no longer than `pauseMs` between them are one: a frost night is one thing, not nine. */
export function joinColdSpells(breaches: readonly Breach[], pauseMs: number): Breach[] {
  const joined: Breach[] = []
  for (const breach of breaches) {
    const last = joined.at(-1)
    if (last === undefined || last.until === null || breach.from - last.until > pauseMs) {
      joined.push({ ...breach })
      continue
    }
    last.until = breach.until
    last.leastMs += breach.leastMs
    last.mostMs = breach.mostMs === null || last.mostMs === null ? null : last.mostMs + breach.mostMs
    last.readings += breach.readings
    if (breach.worst.value < last.worst.value) last.worst = breach.worst
  }
  return joined
}
