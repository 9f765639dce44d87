import type { BayState, ProjectOutline } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'

/** A place to dry: a bay, or the drying bays of a zone or floor taken as one room. */
export interface Place {
  id: string
  kind: 'floor' | 'zone' | 'bay'
  bays: BayId[]
  /** Bays of it that have nothing to dry. */
  leftOut: number
  heated: boolean
}

const driesNow: readonly BayState['word'][] = ['curing', 'drying', 'not proven', 'stopped']

/** Laid and neither ready nor covered. */
export function isDryingBay({ state }: ProjectOutline['bays'][number]): boolean {
  return state.laidAt !== null && driesNow.includes(state.word)
}

/** Returns the place with this id; null when nothing dries there. A bay alone is taken whatever its state. */
export function placeOf(outline: ProjectOutline, id: string | undefined): Place | null {
  const bay = outline.bays.find((one) => one.id === id)
  const heatedIn = (zone: string) => outline.zones.find((one) => one.id === zone)?.body.heated ?? false
  if (bay !== undefined) {
    return { id: bay.id, kind: 'bay', bays: [bay.id], leftOut: 0, heated: heatedIn(bay.body.zone) }
  }
  const kind = outline.zones.some((one) => one.id === id)
    ? 'zone'
    : outline.floors.some((one) => one.id === id)
      ? 'floor'
      : null
  if (kind === null || id === undefined) return null
  const all = outline.bays.filter((one) => (kind === 'zone' ? one.body.zone : one.floor) === id)
  const drying = all.filter(isDryingBay)
  if (drying.length === 0) return null
  return {
    id,
    kind,
    bays: drying.map((one) => one.id),
    leftOut: all.length - drying.length,
    heated: drying.every((one) => heatedIn(one.body.zone)),
  }
}

/** Every place where something dries: floors and zones with more than one such bay, then bays. */
export function placesOf(outline: ProjectOutline): Place[] {
  const ids = [...outline.floors, ...outline.zones].map(({ id }) => id as string)
  const rooms = ids.flatMap((id) => placeOf(outline, id) ?? []).filter(({ bays }) => bays.length > 1)
  const bays = outline.bays.filter(isDryingBay).flatMap(({ id }) => placeOf(outline, id) ?? [])
  return [...rooms, ...bays]
}

/** Where one begins: a bay that is drying in the plain sense, else any bay with something to dry. */
export function firstPlace(outline: ProjectOutline, places: readonly Place[]): Place | null {
  const bays = places.filter(({ kind }) => kind === 'bay')
  const drying = bays.find(({ id }) => outline.bays.find((bay) => bay.id === id)?.state.word === 'drying')
  return drying ?? bays[0] ?? null
}
