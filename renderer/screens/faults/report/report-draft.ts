import type { EntryId } from '#model/record/ids.ts'
import type { SymptomCode } from '#model/record/words.ts'
import type { DraftValues } from '../../../parts/entry-form/draft.ts'
import { cornersOf } from '../../../parts/entry-form/outline.ts'
import { isSymptom } from '../symptoms/is-symptom.ts'
import { areaWithin, isWhole, lengthAlong, middleOfPlace, type Place, type PlaceShape } from './place.ts'

/** Symptoms beyond the main one; each becomes an entry of its own, with an id that outlives a lost answer. */
const furtherName = 'further'

/** The place as it stands in the draft of a report. */
export function placeOf(values: DraftValues): Place {
  const shape = (typeof values.shape === 'string' ? values.shape : 'point') as PlaceShape
  return { shape, points: cornersOf(Array.isArray(values.outline) ? values.outline : []) }
}

/**
 * What a drawn place puts into the boxes of the draft: its points, the one that stands for it, and its size. What is
 * drawn counts over what was typed, as the person sees it change. A place that lacks points is not yet a place.
 */
export function draftOfPlace(place: Place): DraftValues {
  const middle = isWhole(place) ? middleOfPlace(place) : null
  const [length, area] = [lengthAlong(place), areaWithin(place)]
  return {
    shape: place.points.length === 0 && place.shape === 'point' ? undefined : place.shape,
    outline:
      place.points.length === 0
        ? undefined
        : place.points.map(({ x, y }) => ({ x: String(x), y: String(y) })),
    x: middle === null ? undefined : text(middle.x),
    y: middle === null ? undefined : text(middle.y),
    ...(length === null ? {} : { lengthM: text(length, 2) }),
    ...(area === null ? {} : { areaM2: text(area, 2) }),
    ...(isWhole(place) ? { extent: place.shape === 'point' ? 'spot' : 'part' } : {}),
  }
}

/** The symptoms that were chosen, the main one first. */
export function symptomsOf(values: DraftValues): SymptomCode[] {
  return [values.symptom, ...furtherOf(values).map(({ symptom }) => symptom)].filter(
    (code): code is SymptomCode => typeof code === 'string' && isSymptom(code),
  )
}

/** The draft after these were chosen; a symptom that stays keeps its id. */
export function draftOfSymptoms(
  values: DraftValues,
  [main, ...further]: readonly SymptomCode[],
  newId: () => string,
): DraftValues {
  const before = furtherOf(values)
  return {
    symptom: main,
    [furtherName]: further.map(
      (symptom) => before.find((one) => one.symptom === symptom) ?? { symptom, id: newId() },
    ),
  }
}

/** The bodies to be written: one a symptom, all else alike. */
export function entriesOfReport(
  values: DraftValues,
  main: { id: EntryId; body: Record<string, unknown> },
): { id: EntryId; body: Record<string, unknown> }[] {
  const further = furtherOf(values).map(({ id, symptom }) => ({
    id: id as EntryId,
    body: { ...main.body, symptom },
  }))
  return [main, ...further]
}

function furtherOf(values: DraftValues): { symptom: string; id: string }[] {
  const kept = values[furtherName]
  return (Array.isArray(kept) ? kept : []) as { symptom: string; id: string }[]
}

const text = (value: number, digits = 3) => String(Number(value.toFixed(digits)))
