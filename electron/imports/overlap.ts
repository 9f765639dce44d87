import type { SeriesQuantity } from '#model/record/climate.ts'

/** Readings that the record holds already, of one earlier import. */
export interface KnownSeries {
  quantity: SeriesQuantity
  /** In words, for the person: the file and the day it was read. */
  from: string
  at: Float64Array
  value: Float64Array
}

/** Readings of one column; NaN where the row has none. */
export interface NewSeries {
  quantity: SeriesQuantity
  at: Float64Array
  value: Float64Array
}

export interface Overlap {
  /** 1 where a reading of the new series is in the record already. */
  known: Uint8Array
  /** Of which earlier imports, in words. */
  from: string[]
}

/** Below this share of equal readings in the common time, two series are of two loggers that agree now and then. */
const shareOfSameLogger = 0.9
const leastCommon = 3

/**
 * Returns which readings of a new series are in the record already: a logger read out twice repeats itself word for
 * word. Two loggers of one room agree only now and then, and both are kept.
 */
export function overlapWith(record: readonly KnownSeries[], fresh: NewSeries): Overlap {
  const overlap: Overlap = { known: new Uint8Array(fresh.at.length), from: [] }
  for (const one of record) {
    if (one.quantity !== fresh.quantity || one.at.length === 0) continue
    const first = one.at[0]!
    const last = one.at.at(-1)!
    const same: number[] = []
    let common = 0
    let j = 0
    for (let i = 0; i < fresh.at.length; i++) {
      const at = fresh.at[i]!
      if (at < first || Number.isNaN(fresh.value[i]!)) continue
      if (at > last) break
      common++
      while (one.at[j]! < at) j++
      if (one.at[j] === at && one.value[j] === fresh.value[i]) same.push(i)
    }
    if (common < leastCommon || same.length < shareOfSameLogger * common) continue
    for (const i of same) overlap.known[i] = 1
    overlap.from.push(one.from)
  }
  return overlap
}
