import { type SeriesQuantity, seriesQuantities } from '#model/record/climate.ts'
import { UnknownId } from '../errors.ts'
import { plucked, prepared, type ReadHandle } from '../handles.ts'

export interface SeriesWindow {
  series: number
  quantity: SeriesQuantity
  unit: string
  at: number[]
  value: number[]
  /** How many readings the window holds before thinning. */
  readings: number
}

/**
 * The readings of a series in a window of time, thinned to at most `mostPoints` for a chart. Each slice of time gives
 * its lowest and its highest reading, so that no peak and no frost is lost.
 * @param from start [epoch ms], included
 * @param to end [epoch ms], included
 * @param mostPoints at least 2
 * @throws UnknownId when there is no such series
 */
export function seriesWindow(
  read: ReadHandle,
  series: number,
  from: number,
  to: number,
  mostPoints: number,
): SeriesWindow {
  const known = prepared<{ quantity: SeriesQuantity }>(
    read.sqlite,
    'select quantity from series where series = ?',
  ).get(series)
  if (known === undefined) throw new UnknownId('series', String(series))
  const range = 'from readings where series = ? and at between ? and ? order by at'
  const at = plucked<number>(read.sqlite, `select at ${range}`).all(series, Math.ceil(from), Math.floor(to))
  const value = plucked<number>(read.sqlite, `select value ${range}`).all(
    series,
    Math.ceil(from),
    Math.floor(to),
  )
  const kept = extremesOf(value, Math.max(2, Math.floor(mostPoints)))
  return {
    series,
    quantity: known.quantity,
    unit: seriesQuantities[known.quantity].unit,
    at: kept.map((i) => at[i]!),
    value: kept.map((i) => value[i]!),
    readings: at.length,
  }
}

/** Indices of the lowest and highest value of each of `most / 2` equal slices, ascending; all when they are few. */
export function extremesOf(value: readonly number[], most: number): number[] {
  if (value.length <= most) return value.map((_, i) => i)
  const slices = Math.floor(most / 2)
  const kept: number[] = []
  for (let slice = 0; slice < slices; slice++) {
    const start = Math.floor((slice * value.length) / slices)
    const end = Math.floor(((slice + 1) * value.length) / slices)
    let low = start
    let high = start
    for (let i = start + 1; i < end; i++) {
      if (value[i]! < value[low]!) low = i
      if (value[i]! > value[high]!) high = i
    }
    kept.push(Math.min(low, high))
    if (low !== high) kept.push(Math.max(low, high))
  }
  return kept
}
