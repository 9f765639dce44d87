import type { PoreLaw } from './tables.ts'

/**
 * Returns the evaporable water [kg/m³] held at pore humidity h: a GAB gel part and a capillary term near saturation.
 * w = Vm C k h / ((1 - k h)(1 + (C - 1) k h)) + wcap h^m
 * @source GAB form (Guggenheim, Anderson, de Boer); for cement paste the parameters follow Xi, Bazant, Molina and
 * Jennings 1994, Adv. Cem. Based Mater. 1:248 (BSB)
 * @provenance from memory
 */
export function isothermKgM3(
  h: number,
  law: {
    monolayerKgM3: number
    gabC: number
    gabK: number
    capillaryKgM3: number
    capillaryExponent: number
  },
): number {
  const kh = law.gabK * h
  const gel = (law.monolayerKgM3 * law.gabC * kh) / ((1 - kh) * (1 + (law.gabC - 1) * kh))
  return gel + law.capillaryKgM3 * h ** law.capillaryExponent
}

/**
 * Returns how far moisture conductivity has fallen from its value at saturation (1) at pore humidity h:
 * alpha + (1 - alpha) / (1 + ((1 - h)/(1 - hc))^n).
 * @source Bazant and Najjar 1972, Mater. Constr. 5:3; the form is kept in CEB-FIP Model Code 1990 2.1.9.3
 * @provenance quoted second-hand (form), from memory (constants)
 */
export function conductivityShape(h: number, shape: { alpha: number; hc: number; n: number }): number {
  const dryness = Math.max(0, (1 - h) / (1 - shape.hc))
  return shape.alpha + (1 - shape.alpha) / (1 + dryness ** shape.n)
}

/** The parameters of cement paste in the BSB isotherm. */
export interface BsbParameters {
  gabC: number
  gabK: number
  /** Monolayer water in kg per kg of cement. */
  monolayerPerCement: number
  layers: number
}

const CEMENT_TYPES = {
  I: { monolayer: 0.9, layers: 1.1 },
  II: { monolayer: 1, layers: 1 },
  III: { monolayer: 0.85, layers: 1.15 },
  IV: { monolayer: 0.6, layers: 1.5 },
} as const

/**
 * Returns the BSB parameters of hardened cement paste at age `ageDays` (> 5) and water/cement 0.3–0.7.
 * @source Xi, Bazant, Molina and Jennings 1994, Adv. Cem. Based Mater. 1:248
 * @provenance from memory
 */
export function cementPasteBsb(
  waterCement: number,
  ageDays: number,
  type: keyof typeof CEMENT_TYPES = 'I',
  tempC = 20,
): BsbParameters {
  const factors = CEMENT_TYPES[type]
  const gabC = Math.exp(855 / (273.15 + tempC))
  const layers = (2.5 + 15 / ageDays) * (0.33 + 2.2 * waterCement) * factors.layers
  const gabK = ((1 - 1 / layers) * gabC - 1) / (gabC - 1)
  const monolayerPerCement = (0.068 - 0.22 / ageDays) * (0.85 + 0.45 * waterCement) * factors.monolayer
  return { gabC, gabK, monolayerPerCement, layers }
}

/** Puts an isotherm and a conductivity together as the law the solver tabulates. */
export function poreLaw(
  law: Parameters<typeof isothermKgM3>[1],
  conductivityAtSaturation: number,
  shape: Parameters<typeof conductivityShape>[1],
): PoreLaw {
  return {
    waterKgM3: (h) => isothermKgM3(h, law),
    conductivity: (h) => conductivityAtSaturation * conductivityShape(h, shape),
  }
}
