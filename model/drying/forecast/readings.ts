import { hourMs } from '#model/time.ts'
import { InputError, requireInstant, requireNumber } from '../../errors.ts'
import type { MoistureMethod } from '../../record/words.ts'
import type { Material } from '../materials.ts'
import type { Sight } from './ensemble.ts'

/** A moisture reading of the bay. */
export interface MoistureReading {
  id?: string
  at: string | number
  method: MoistureMethod
  /** Probe: depth of the sensor; default the depth of the standard, 40 % of thickness (20 % with two faces). */
  depthMm?: number
  /** Carbide and oven: the part of the depth that was sampled; default all of it. */
  fromMm?: number
  toMm?: number
  /** Box: how long it had stood when read; default 72 h. */
  boxHours?: number
  /** % RH for box and probe, CM-% for carbide, mass % for oven. */
  value: number
  /** One standard deviation of the reading, when better known than the method's. */
  sd?: number
}

/** Readings that err together: one unknown shift for the whole group. */
export type Group = 'humidity' | 'carbide' | 'mass'

/** One standard deviation of a single reading. */
export const READING_SD: Record<
  'probe' | 'hygrometer box' | 'carbide' | 'oven dry',
  { value: number; unit: string; source: string; provenance: 'our judgement' | 'quoted second-hand' }
> = {
  probe: { value: 2, unit: '% RH', source: 'probe in a sleeve, calibrated', provenance: 'our judgement' },
  'hygrometer box': {
    value: 3,
    unit: '% RH',
    source: 'surface box, calibrated',
    provenance: 'our judgement',
  },
  carbide: {
    value: 0.25,
    unit: 'CM-%',
    source: 'carefully done ±0.2, between places up to ±0.8 CM-% (a Bavarian teaching page)',
    provenance: 'quoted second-hand',
  },
  'oven dry': { value: 0.2, unit: 'mass %', source: 'sampling in one place', provenance: 'our judgement' },
}

const DEFAULT_BOX_HOURS = 72

export interface UsableReading {
  id: string
  index: number
  method: MoistureMethod
  atMs: number
  value: number
  sd: number
  group: Group
  sight: Sight
}

export interface SortedReadings {
  usable: UsableReading[]
  /** Readings that teach nothing here, and why. */
  unused: { id: string; note: string }[]
}

const groups: Partial<Record<MoistureMethod, Group>> = {
  probe: 'humidity',
  'hygrometer box': 'humidity',
  carbide: 'carbide',
  'oven dry': 'mass',
}
const ranges: Record<Group, [number, number, string]> = {
  humidity: [5, 100, '% RH'],
  carbide: [0, 12, 'CM-%'],
  mass: [0, 30, 'mass %'],
}

/**
 * Returns which readings the forecast can learn from and why the others cannot: taken after `asOf`, before drying
 * began, or by a method that measures something else.
 * @errors InputError naming the reading when a value is impossible
 */
export function sortReadings(
  readings: readonly MoistureReading[],
  bay: {
    thicknessMm: number
    faces: 1 | 2
    material: Material
    dryMs: number
    asOfMs: number
    probeDepthMm: number
  },
): SortedReadings {
  const sorted: SortedReadings = { usable: [], unused: [] }
  readings.forEach((reading, index) => {
    const field = `readings[${index}]`
    const id = reading.id ?? `reading ${index + 1}`
    const atMs = requireInstant(`${field}.at`, reading.at)
    const group = groups[reading.method]
    if (group === undefined) {
      if (reading.method !== 'calcium chloride' && reading.method !== 'electrical survey') {
        throw new InputError(
          `${field}.method`,
          `${field}.method is ${JSON.stringify(reading.method)}; it must be a moisture method of the record.`,
        )
      }
      sorted.unused.push({
        id,
        note: 'This method does not measure moisture in the layer, so the forecast does not learn from it.',
      })
      return
    }
    const [least, most, unit] = ranges[group]
    requireNumber(`${field}.value`, reading.value, least, most, unit)
    if (reading.sd !== undefined) requireNumber(`${field}.sd`, reading.sd, 1e-3, 50, unit)
    if (reading.depthMm !== undefined)
      requireNumber(`${field}.depthMm`, reading.depthMm, 1, bay.thicknessMm, 'mm')
    if (reading.boxHours !== undefined) requireNumber(`${field}.boxHours`, reading.boxHours, 1, 2000, 'h')
    const fromMm =
      reading.fromMm === undefined
        ? 0
        : requireNumber(`${field}.fromMm`, reading.fromMm, 0, bay.thicknessMm - 1, 'mm')
    const toMm =
      reading.toMm === undefined
        ? bay.thicknessMm
        : requireNumber(`${field}.toMm`, reading.toMm, fromMm + 1, bay.thicknessMm, 'mm')
    const setMs = atMs - (reading.boxHours ?? DEFAULT_BOX_HOURS) * hourMs
    if (atMs > bay.asOfMs)
      sorted.unused.push({ id, note: 'Taken after the day this forecast stands on, so it is not used.' })
    else if (atMs < bay.dryMs)
      sorted.unused.push({
        id,
        note: 'Taken while the bay was still sealed: it says nothing about drying, so it is not used.',
      })
    else if (reading.method === 'hygrometer box' && setMs < bay.dryMs) {
      sorted.unused.push({ id, note: 'The box was set before the curing sheet came off, so it is not used.' })
    } else {
      const sight: Sight =
        group !== 'humidity'
          ? { kind: 'mass', atMs, fromMm, toMm }
          : reading.method === 'probe'
            ? { kind: 'probe', atMs, depthMm: reading.depthMm ?? bay.probeDepthMm }
            : { kind: 'box', atMs, setMs }
      const sd = reading.sd ?? READING_SD[reading.method as keyof typeof READING_SD].value
      sorted.usable.push({ id, index, method: reading.method, atMs, value: reading.value, sd, group, sight })
    }
  })
  return sorted
}
