/** Vapour above the drying face and temperature in the pores: surface resistance and what warmth speeds up. */

const ZERO_C_IN_K = 273.15
const REFERENCE_K = 293.15
const VAPOUR_GAS_CONSTANT = 461.5 // J/(kg K)

/** Transport in the pores quickens with temperature: Q/R in kelvin. */
export const ACTIVATION_K = 4700
/** The same for the reaction of cement with water (EN 1992-1-1 B.10 uses 4000 K). */
export const HYDRATION_ACTIVATION_K = 4000

/**
 * Returns how much faster moisture moves in the pores than at 20 °C (1 at 20 °C).
 * @source Bazant and Najjar 1972, Mater. Constr. 5:3; Q/R 4700 K
 * @provenance from memory
 */
export function transportFactor(tempC: number): number {
  return Math.exp(ACTIVATION_K * (1 / REFERENCE_K - 1 / (ZERO_C_IN_K + tempC)))
}

/** Returns how much faster cement hydrates than at 20 °C (EN 1992-1-1 B.10, divided by its value at 20 °C). */
export function hydrationFactor(tempC: number): number {
  return Math.exp(HYDRATION_ACTIVATION_K * (1 / REFERENCE_K - 1 / (ZERO_C_IN_K + tempC)))
}

/**
 * Returns the vapour permeability of still air [kg/(m s Pa)] at 101 325 Pa.
 * @source Schirmer 1938
 * @provenance from memory
 */
export function airPermeability(tempC: number): number {
  const tempK = ZERO_C_IN_K + tempC
  return (2.31e-5 / (VAPOUR_GAS_CONSTANT * tempK)) * (tempK / ZERO_C_IN_K) ** 1.81
}

/**
 * Returns the vapour transfer coefficient of a bare face [kg/(m² s Pa)] for an air speed below 5 m/s:
 * 7e-9 times the convective heat transfer 4 + 4v W/(m² K).
 * @source EN ISO 6946 (h = 4 + 4v, smooth plane) and the Lewis relation as in EN 15026
 * @provenance from memory
 */
export function bareFaceTransfer(airSpeedMs: number): number {
  return 7e-9 * (4 + 4 * airSpeedMs)
}

/** Returns the transfer coefficient [kg/(m² s Pa)] of a face that carries a skin of `skinSdM` metres of still air. */
export function faceTransfer(airSpeedMs: number, skinSdM: number, tempC: number): number {
  return 1 / (1 / bareFaceTransfer(airSpeedMs) + skinSdM / airPermeability(tempC))
}
