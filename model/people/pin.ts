/**
 * What a PIN must be and how wrong tries are slowed down.
 * @provenance our judgement: six digits can be typed with gloves; five tries at once and then ever longer waits leave
 *   some thirty tries a day, so that trying half of all PINs takes decades
 */
export const pinRules = {
  leastDigits: 6,
  mostDigits: 12,
  /** So many wrong tries stand without a wait. */
  freeTries: 5,
  firstWaitMs: 60_000,
  longestWaitMs: 3_600_000,
  /** A proof ends when nobody has signed for so long [ms]. */
  idleMs: 10 * 60_000,
} as const

/** Returns why a PIN cannot be used, as the end of a sentence that begins with "The PIN"; null when it can. */
export function pinProblem(pin: string): string | null {
  const { leastDigits, mostDigits } = pinRules
  if (!/^\d+$/.test(pin)) return 'must be of digits only'
  if (pin.length < leastDigits || pin.length > mostDigits)
    return `must have ${leastDigits} to ${mostDigits} digits`
  if (stepsOf(pin).every((step, _, steps) => step === steps[0] && Math.abs(step) <= 1))
    return 'must not be one digit again and again, or digits in a row'
  return null
}

function stepsOf(pin: string): number[] {
  const digits = [...pin].map(Number)
  return digits.slice(1).map((digit, i) => digit - digits[i]!)
}

/**
 * Returns how long somebody has to wait after so many wrong tries in a row [ms]: nothing for the first ones, then a
 * minute, doubled with each further one up to an hour.
 */
export function waitAfter(wrongTries: number): number {
  const { freeTries, firstWaitMs, longestWaitMs } = pinRules
  if (wrongTries < freeTries) return 0
  return Math.min(longestWaitMs, firstWaitMs * 2 ** Math.min(20, wrongTries - freeTries))
}
