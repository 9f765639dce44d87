import type { StoryEntryOf } from '../../record/entry.ts'
import { type BayStory, entriesOf } from '../../record/story.ts'
import { liveOrDormant } from '../movement.ts'
import type { GaugeReading, Movement } from '../shapes.ts'

/** The size of a defect as last known, each number with the entry that gave it. */
export interface Measures {
  lengthM: number | null
  areaM2: number | null
  widthMm: number | null
  weakToMm: number | null
  hollowM2: number | null
  stepMm: number | null
  rocks: boolean | null
  boundaryProven: boolean | null
  pullOffMPa: number | null
  pipesLocated: boolean | null
  trialPassed: boolean | null
  entries: string[]
}

const names = [
  'lengthM',
  'areaM2',
  'widthMm',
  'weakToMm',
  'hollowM2',
  'stepMm',
  'rocks',
  'boundaryProven',
  'pullOffMPa',
  'pipesLocated',
  'trialPassed',
] as const

/**
 * Returns the last known of each measure of a fault: what measuring showed goes before what the finder wrote, and of what was
 * written of its symptoms in one look the greater counts.
 *
 * @param defects every symptom of the fault.
 */
export function measuresOf(story: BayStory, defects: readonly StoryEntryOf<'defect-found'>[]): Measures {
  const ids = new Set<string>(defects.map(({ id }) => id))
  const measured = entriesOf(story, 'defect-measured').filter(({ body }) => ids.has(body.defect))
  const bodies = measured.map(({ body }): Record<string, unknown> => body)
  const known = (name: (typeof names)[number]) =>
    bodies.findLast((body) => body[name] !== undefined)?.[name] ?? greatest(defects, name)
  return {
    ...(Object.fromEntries(names.map((name) => [name, known(name)])) as Omit<Measures, 'entries'>),
    entries: [...defects, ...measured].map(({ id }) => id),
  }
}

/** The worst that was written when the symptoms were found: the widest, the deepest, "rocks" before "does not". */
function greatest(defects: readonly { body: Record<string, unknown> }[], name: string): unknown {
  const told = defects.flatMap(({ body }) => body[name] ?? [])
  return told.toSorted((a, b) => Number(a) - Number(b)).at(-1) ?? null
}

/** Returns the gauge readings of a crack, by the entries of the symptoms that it was found as, oldest first. */
export function gaugeReadings(story: BayStory, defects: readonly string[]): GaugeReading[] {
  return entriesOf(story, 'crack-gauged')
    .filter(({ body }) => defects.includes(body.defect))
    .map(({ id, happenedAt, body }) => ({
      at: happenedAt,
      widthMm: body.widthMm,
      surfaceC: body.surfaceC ?? null,
      place: body.place,
      entry: id,
    }))
}

/** Returns whether the crack moves, by the gauge readings of the record. */
export function movementOf(story: BayStory, defects: readonly string[]): Movement {
  return liveOrDormant(gaugeReadings(story, defects))
}
