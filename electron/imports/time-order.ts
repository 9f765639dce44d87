/** What is wrong with the place of a row among the others. */
export type OrderFault =
  | { kind: 'again' | 'other values'; row: number; of: number }
  | { kind: 'back'; row: number }

/** Returns whether the rows run from the newest to the oldest. NaN is passed over. */
export function newestFirst(times: Float64Array): boolean {
  let up = 0
  let down = 0
  let last = Number.NaN
  for (const time of times) {
    if (time > last) up++
    else if (time < last) down++
    if (!Number.isNaN(time)) last = time
  }
  return down > up
}

/**
 * Returns the rows that repeat a time or go back in time. The longest run of rows that only goes forward stands,
 * so that one wild clock reading costs one row and not all that follow it.
 *
 * @param times instants [ms]; NaN rows are passed over, being refused already.
 * @param same whether two rows of the same time also bear the same values.
 */
export function orderFaults(
  times: Float64Array,
  same: (row: number, other: number) => boolean,
): OrderFault[] {
  if (onlyForward(times)) return []
  const faults: OrderFault[] = []
  const firstOf = new Map<number, number>()
  const left: number[] = []
  for (let row = 0; row < times.length; row++) {
    const time = times[row]!
    if (Number.isNaN(time)) continue
    const of = firstOf.get(time)
    if (of !== undefined) faults.push({ kind: same(row, of) ? 'again' : 'other values', row, of })
    else {
      firstOf.set(time, row)
      left.push(row)
    }
  }
  const standing = longestForwardRun(left, times)
  for (const row of left) if (!standing.has(row)) faults.push({ kind: 'back', row })
  return faults
}

function onlyForward(times: Float64Array): boolean {
  let last = Number.NEGATIVE_INFINITY
  for (const time of times) {
    if (Number.isNaN(time)) continue
    if (time <= last) return false
    last = time
  }
  return true
}

/** Longest increasing subsequence by patience sorting. */
function longestForwardRun(rows: readonly number[], times: Float64Array): Set<number> {
  const tails: number[] = []
  const before = new Map<number, number>()
  for (const row of rows) {
    let low = 0
    let high = tails.length
    while (low < high) {
      const middle = (low + high) >> 1
      if (times[tails[middle]!]! < times[row]!) low = middle + 1
      else high = middle
    }
    if (low > 0) before.set(row, tails[low - 1]!)
    tails[low] = row
  }
  const run = new Set<number>()
  for (let row = tails.at(-1); row !== undefined; row = before.get(row)) run.add(row)
  return run
}
