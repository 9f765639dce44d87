import { useState } from 'react'
import type { Point } from '#model/movement/index.ts'
import type { RangeAnswer } from '#model/record/entry.ts'
import type { EntryId, FloorId } from '#model/record/ids.ts'
import { kinds } from '#model/record/kinds.ts'
import { useJob } from '../../../app/job.tsx'
import { type DraftValues, draftOfBody, wallOf } from '../../../parts/entry-form/draft.ts'
import { useDraft } from '../../../parts/entry-form/draft-store.ts'
import { cornersOf } from '../../../parts/entry-form/outline.ts'
import type { PlanBay } from '../plan/bay-shapes.tsx'
import { millimetres } from './snap.ts'

/** What the drawing is about: a new bay of a floor, or the outline of one that stands in the record. */
export type Drawing =
  | { kind: 'new'; floor: FloorId }
  | { kind: 'edit'; bay: PlanBay; version: EntryId; happenedAt: number; answers: readonly RangeAnswer[] }

export interface BayDrawing {
  draftKey: string
  start: DraftValues
  corners: Point[]
  setCorners: (corners: readonly Point[]) => void
  /** True while each tap on the plan adds a corner. */
  tapping: boolean
  setTapping: (tapping: boolean) => void
  body: Readonly<DraftValues>
}

/** The outline that is being drawn. Plan and form share one draft: what is dragged is typed, what is typed is drawn. */
export function useBayDrawing(drawing: Drawing): BayDrawing {
  const { outline, zone } = useJob()
  const draftKey =
    drawing.kind === 'new'
      ? `bay-planned on ${drawing.floor}`
      : `bay-planned of ${drawing.bay.id} from ${drawing.version}`
  const start =
    drawing.kind === 'edit'
      ? draftOfBody(kinds['bay-planned'].fields, drawing.bay.body, zone)
      : startOn(drawing.floor, outline, zone)
  const { draft, setValue } = useDraft(draftKey, () => ({
    values: start,
    happened: drawing.kind === 'new' ? 'now' : wallOf(drawing.happenedAt, zone),
    answers: Object.fromEntries(
      (drawing.kind === 'new' ? [] : drawing.answers).map(({ field, value, answer }) => [
        field,
        { value, answer },
      ]),
    ),
  }))
  const corners = cornersOf(Array.isArray(draft.values.outline) ? draft.values.outline : [])
  const [tapping, setTapping] = useState(corners.length < 3)
  return {
    draftKey,
    start,
    corners,
    setCorners: (next) =>
      setValue(
        'outline',
        next.map(({ x, y }) => ({ x: String(millimetres(x)), y: String(millimetres(y)) })),
      ),
    tapping,
    setTapping,
    body: draft.values,
  }
}

const carried = [
  'screed',
  'designation',
  'construction',
  'designThicknessMm',
  'minThicknessMm',
  'cementClass',
  'fcm28MPa',
  'insulation',
  'membrane',
  'pipeCoverMm',
] as const

/** A new bay begins as the last one of its zone was built; name and outline are its own. */
function startOn(
  floor: FloorId,
  outline: ReturnType<typeof useJob>['outline'],
  timeZone: string,
): DraftValues {
  const zones = outline.zones.filter(({ body }) => body.floor === floor)
  const like = outline.bays.findLast((bay) => bay.floor === floor)
  const zone = like?.body.zone ?? zones[0]?.id
  if (like === undefined) return { zone }
  const values = draftOfBody(kinds['bay-planned'].fields, like.body, timeZone)
  return { zone, ...Object.fromEntries(carried.map((name) => [name, values[name]])) }
}
