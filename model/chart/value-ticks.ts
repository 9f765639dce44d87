/** A value axis: its ends and its marks, all round numbers. */
export interface ValueScale {
  low: number
  high: number
  ticks: number[]
}

/**
 * Returns an axis of round numbers that holds all values and everything that must be seen (`hold`, such as a limit).
 * @param about how many steps it should have, about.
 */
export function valueScale(values: Iterable<number>, hold: readonly number[], about: number): ValueScale {
  let low = Math.min(...hold)
  let high = Math.max(...hold)
  for (const value of values) {
    if (!Number.isFinite(value)) continue
    if (value < low) low = value
    if (value > high) high = value
  }
  if (!Number.isFinite(low) || !Number.isFinite(high)) return { low: 0, high: 1, ticks: [0, 1] }
  const step = roundStep(Math.max(high - low, 1e-9) / Math.max(1, about))
  const first = Math.floor(low / step + 1e-9)
  const last = Math.max(first + 1, Math.ceil(high / step - 1e-9))
  const ticks = Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  )
  return { low: ticks[0]!, high: ticks.at(-1)!, ticks }
}

/** The round number (1, 2 or 5 times a power of ten) at or above a step. */
export function roundStep(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step))
  const digit = [1, 2, 5].find((one) => one * power >= step * (1 - 1e-9)) ?? 10
  return digit * power
}
