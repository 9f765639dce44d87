import { requireNumber } from '../errors.ts'

/** The properties the solver needs at one pore humidity, as plain numbers in SI units. */
export interface PoreLaw {
  /** Evaporable water [kg/m³] at pore humidity h [-]. */
  waterKgM3: (h: number) => number
  /** Moisture conductivity [kg/(m s)] per unit of pore humidity, at 20 °C. */
  conductivity: (h: number) => number
}

/**
 * Water content and Kirchhoff potential of a pore law, tabulated so that derivatives are exact.
 * The slope of water (capacity) and of potential (conductivity) run straight between nodes; water and potential
 * are their exact integrals, parabola by parabola. Newton's method then sees the true derivative of what it solves.
 */
export interface PoreTable {
  intervals: number
  /** Six numbers an interval: water, capacity, half its change; potential, conductivity, half its change. */
  data: Float64Array
}

export const VALUES_PER_INTERVAL = 6

/** Returns the table of a pore law over pore humidity 0–1. */
export function tabulate(law: PoreLaw, intervals = 2048): PoreTable {
  requireNumber('intervals', intervals, 64, 65536)
  const width = 1 / intervals
  const data = new Float64Array(intervals * VALUES_PER_INTERVAL)
  // Capacity at the nodes, from a centred difference fine enough for a 60th power.
  const reach = 1e-5
  const capacityAt = (h: number) => {
    const low = Math.max(0, h - reach)
    const high = Math.min(1, h + reach)
    return (law.waterKgM3(high) - law.waterKgM3(low)) / (high - low)
  }
  let water = 0
  let potential = 0
  for (let j = 0; j < intervals; j++) {
    const here = j * width
    const next = here + width
    const capacity = capacityAt(here)
    const capacityNext = capacityAt(next)
    const conductivity = law.conductivity(here)
    const conductivityNext = law.conductivity(next)
    data.set(
      [
        water,
        capacity,
        (capacityNext - capacity) / (2 * width),
        potential,
        conductivity,
        (conductivityNext - conductivity) / (2 * width),
      ],
      j * VALUES_PER_INTERVAL,
    )
    water += 0.5 * (capacity + capacityNext) * width
    potential += 0.5 * (conductivity + conductivityNext) * width
  }
  return { intervals, data }
}

/** Returns where the interval that holds h begins in the table's data; values beyond 0–1 use the end intervals. */
export function intervalStart(table: PoreTable, h: number): number {
  const j = Math.min(table.intervals - 1, Math.max(0, Math.floor(h * table.intervals)))
  return j * VALUES_PER_INTERVAL
}

/** Returns the evaporable water [kg/m³] at pore humidity h. */
export function waterAt(table: PoreTable, h: number): number {
  const at = intervalStart(table, h)
  const s = h - at / VALUES_PER_INTERVAL / table.intervals
  return table.data[at]! + s * (table.data[at + 1]! + s * table.data[at + 2]!)
}

/** Returns the moisture capacity dw/dh [kg/m³]. */
export function capacityAt(table: PoreTable, h: number): number {
  const at = intervalStart(table, h)
  const s = h - at / VALUES_PER_INTERVAL / table.intervals
  return table.data[at + 1]! + 2 * s * table.data[at + 2]!
}

/** Returns the Kirchhoff potential, the integral of conductivity over pore humidity [kg/(m s)]. */
export function potentialAt(table: PoreTable, h: number): number {
  const at = intervalStart(table, h)
  const s = h - at / VALUES_PER_INTERVAL / table.intervals
  return table.data[at + 3]! + s * (table.data[at + 4]! + s * table.data[at + 5]!)
}

/** Returns the moisture conductivity [kg/(m s)] per unit of pore humidity. */
export function conductivityAt(table: PoreTable, h: number): number {
  const at = intervalStart(table, h)
  const s = h - at / VALUES_PER_INTERVAL / table.intervals
  return table.data[at + 4]! + 2 * s * table.data[at + 5]!
}

/** Returns the pore humidity that holds the given water [kg/m³]; 0–1. */
export function humidityOfWater(table: PoreTable, waterKgM3: number): number {
  return inverse(table, waterAt, waterKgM3)
}

/** Returns the pore humidity of a given Kirchhoff potential [kg/(m s)]; 0–1. */
export function humidityOfPotential(table: PoreTable, potential: number): number {
  return inverse(table, potentialAt, potential)
}

function inverse(table: PoreTable, of: (table: PoreTable, h: number) => number, value: number): number {
  let low = 0
  let high = 1
  for (let i = 0; i < 48; i++) {
    const middle = 0.5 * (low + high)
    if (of(table, middle) < value) low = middle
    else high = middle
  }
  return 0.5 * (low + high)
}
