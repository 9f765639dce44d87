/** One measured speed beside a yardstick of the same run, because a number alone says more of the machine. */
export interface Measured {
  name: string
  measured: number
  unit: string
  /** What it is compared with, in the same unit; null when there is nothing fair. */
  yardstick: number | null
  ratio: number | null
  goal: string
  /** Null when there is no goal to meet. */
  met: boolean | null
}

/** Every other file of this folder has one of these as its default export. */
export type Bench = () => Promise<Measured[]>

/** Returns the median of some numbers. */
export function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}
