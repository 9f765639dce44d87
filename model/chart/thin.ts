/** Readings in time: parallel arrays, ascending. */
export interface Readings {
  at: ArrayLike<number>
  value: ArrayLike<number>
}

/** One corner of a drawn line; a null value lifts the pen. */
export interface LinePoint {
  at: number
  value: number | null
}

/**
 * Returns the corners of a line through readings in [from, until], at most four for each of `columns` equal stretches of
 * time: the first, the lowest, the highest and the last, in their order.
 *
 * What is drawn is therefore what one column of pixels could show of all readings; no dip or peak is lost, however short.
 * Readings further apart than `gapMs` are not joined. One reading beyond each end is kept, so that the line leaves the frame.
 *
 * @param columns columns of pixels that the line is drawn on, at least 1.
 * @source the min–max envelope of signal displays; four points a column as in Jugel et al. 2014, VLDB 7(10)
 * @provenance from memory
 */
export function thinned(
  readings: Readings,
  from: number,
  until: number,
  columns: number,
  gapMs: number,
): LinePoint[] {
  const { at, value } = readings
  const first = Math.max(0, firstIndexFrom(at, from) - 1)
  const end = Math.min(at.length, firstIndexFrom(at, until) + 1)
  const width = Math.max(1, (until - from) / Math.max(1, columns))
  const points: LinePoint[] = []
  let start = first
  while (start < end) {
    const column = Math.floor((at[start]! - from) / width)
    let stop = start + 1
    while (stop < end && Math.floor((at[stop]! - from) / width) === column && joined(at, stop, gapMs)) stop++
    if (start > first && !joined(at, start, gapMs)) points.push({ at: at[start]!, value: null })
    for (const i of cornersOf(value, start, stop)) points.push({ at: at[i]!, value: value[i]! })
    start = stop
  }
  return points
}

/** The pause after which a line is not joined: four of its usual intervals, and at least `leastMs`. */
export function gapOf(at: ArrayLike<number>, leastMs: number): number {
  const pauses: number[] = []
  const step = Math.max(1, Math.floor(at.length / 500))
  for (let i = step; i < at.length; i += step) pauses.push(at[i]! - at[i - 1]!)
  pauses.sort((a, b) => a - b)
  return Math.max(leastMs, 4 * (pauses[Math.floor(pauses.length / 2)] ?? 0))
}

/** Index of the first element at or after the instant. */
export function firstIndexFrom(at: ArrayLike<number>, instant: number): number {
  let low = 0
  let high = at.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (at[middle]! < instant) low = middle + 1
    else high = middle
  }
  return low
}

/** Index of the reading nearest to the instant, or −1 when none is within `reachMs`. */
export function nearestIndex(at: ArrayLike<number>, instant: number, reachMs: number): number {
  const after = firstIndexFrom(at, instant)
  const before = after - 1
  const far = (i: number) => (i < 0 || i >= at.length ? Number.POSITIVE_INFINITY : Math.abs(at[i]! - instant))
  const nearest = far(before) <= far(after) ? before : after
  return far(nearest) <= reachMs ? nearest : -1
}

function joined(at: ArrayLike<number>, i: number, gapMs: number): boolean {
  return i === 0 || at[i]! - at[i - 1]! <= gapMs
}

function cornersOf(value: ArrayLike<number>, start: number, stop: number): number[] {
  let lowest = start
  let highest = start
  for (let i = start + 1; i < stop; i++) {
    if (value[i]! < value[lowest]!) lowest = i
    if (value[i]! > value[highest]!) highest = i
  }
  return [...new Set([start, lowest, highest, stop - 1])].sort((a, b) => a - b)
}
