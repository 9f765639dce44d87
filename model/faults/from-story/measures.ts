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
] as const

/** Returns the last known of each measure: what measuring showed goes before what the finder wrote. */
export function measuresOf(story: BayStory, defect: StoryEntryOf<'defect-found'>): Measures {
  const measured = entriesOf(story, 'defect-measured').filter(
    ({ body }) => body.defect === (defect.id as string),
  )
  const told: { id: string; body: Record<string, unknown> }[] = [defect, ...measured]
  const last = (name: (typeof names)[number]) =>
    told.findLast(({ body }) => body[name] !== undefined)?.body[name] ?? null
  return {
    ...(Object.fromEntries(names.map((name) => [name, last(name)])) as Omit<Measures, 'entries'>),
    entries: told.map(({ id }) => id),
  }
}

/** Returns the gauge readings of a crack, oldest first. */
export function gaugeReadings(story: BayStory, defect: string): GaugeReading[] {
  return entriesOf(story, 'crack-gauged')
    .filter(({ body }) => body.defect === defect)
    .map(({ id, happenedAt, body }) => ({
      at: happenedAt,
      widthMm: body.widthMm,
      surfaceC: body.surfaceC ?? null,
      place: body.place,
      entry: id,
    }))
}

/** Returns whether the crack moves, by the gauge readings of the record. */
export function movementOf(story: BayStory, defect: string): Movement {
  return liveOrDormant(gaugeReadings(story, defect))
}
