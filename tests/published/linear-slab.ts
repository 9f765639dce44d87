import { fillColumn, makeColumn, probeAt, probeReading, solveStep } from '#model/drying/column.ts'
import { tabulate, waterAt } from '#model/drying/tables.ts'

/** A slab whose diffusivity does not change with humidity, for which an exact answer exists. */
export const LINEAR = { lengthM: 0.05, diffusivity: 2e-10, start: 0.98, air: 0.5 }
const CAPACITY = 100

export interface LinearCase {
  biot: number
  days: number
  /** Share of the depth from the drying face. */
  share: number
  cells?: number
  stepHours?: number
}

/**
 * Returns the exact pore humidity of a slab that dries from one face through a surface resistance.
 * h = air + (start - air) sum 2 Bi cos(b X/L) / ((b² + Bi² + Bi) cos b) exp(-b² D t/L²), b tan b = Bi; X from the membrane.
 * @source Crank 1975, The Mathematics of Diffusion, 2nd ed., eq. 4.53
 * @provenance from memory
 */
export function exactHumidity({ biot, days, share }: LinearCase): number {
  const { lengthM, diffusivity, start, air } = LINEAR
  const time = (diffusivity * days * 86_400) / (lengthM * lengthM)
  let sum = 0
  for (let n = 0; n < 400; n++) {
    let low = n * Math.PI
    let high = n * Math.PI + Math.PI / 2 - 1e-12
    for (let i = 0; i < 80; i++) {
      const middle = 0.5 * (low + high)
      if (middle * Math.tan(middle) < biot) low = middle
      else high = middle
    }
    const b = 0.5 * (low + high)
    sum +=
      ((2 * biot * Math.cos(b * (1 - share))) / ((b * b + biot * biot + biot) * Math.cos(b))) *
      Math.exp(-b * b * time)
  }
  return air + (start - air) * sum
}

/** Returns the same from the solver. */
export function solvedHumidity({ biot, days, share, cells = 40, stepHours = 1 }: LinearCase): number {
  const { lengthM, diffusivity, start, air } = LINEAR
  const conductivity = diffusivity * CAPACITY
  const table = tabulate({ waterKgM3: (h) => CAPACITY * h, conductivity: () => conductivity })
  const column = makeColumn(table, lengthM, 1, cells)
  fillColumn(column, start, waterAt(table, start))
  column.gapFactor.set(column.inverseGap)
  const pull = (biot * conductivity) / lengthM
  const steps = Math.round((days * 24) / stepHours)
  for (let i = 0; i < steps; i++) {
    column.from.set(column.water)
    solveStep(column, stepHours * 3600, { pull, push: pull * air }, { pull: 0, push: 0 }, 1e-12, 20)
  }
  return probeReading(column.h, probeAt(column, share * lengthM))
}
