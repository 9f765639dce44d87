/** Water that cement binds while it dries: a screed also dries from within, a little. */

const HOUR_S = 3600
const CURVE_TAU_HOURS = 16
const CURVE_EXPONENT = 0.9
const SELF_DESICCATION_EXPONENT = 1.5

/**
 * Returns the degree of hydration relative to its final value after `equivalentHours` at 20 °C.
 * @source Freiesleben Hansen and Pedersen 1977: exp(-(tau/te)^b), tau 16 h, b 0.9
 * @provenance from memory
 */
export function hydrationReached(equivalentHours: number): number {
  return equivalentHours <= 0 ? 0 : Math.exp(-((CURVE_TAU_HOURS / equivalentHours) ** CURVE_EXPONENT))
}

/**
 * Returns the pore humidity lost to hydration so far in a sealed body that can lose `finalDrop` in all.
 * @source form of Oh and Cha 2003
 * @provenance from memory
 */
export function selfDesiccation(equivalentS: number, finalDrop: number): number {
  return finalDrop === 0 ? 0 : finalDrop * hydrationReached(equivalentS / HOUR_S) ** SELF_DESICCATION_EXPONENT
}

/**
 * Returns how far dryness slows hydration: 1 when saturated, about a sixth at 80 %.
 * @source Bazant: 1/(1 + (7.5 - 7.5h)^4)
 * @provenance from memory
 */
export function hydrationGate(h: number): number {
  const dryness = 7.5 - 7.5 * h
  return 1 / (1 + dryness ** 4)
}
