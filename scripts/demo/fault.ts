import type { EntryId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import type { FollowedBay } from './hold-points.ts'
import { dayMs, dayOf, hourMs } from './site-clock.ts'

/**
 * Two faults that the record can explain: a bay that dusts because nobody covered it, opened and measured; and a crack
 * across a bay that is much too long for its width, gauged for more than two weeks and still.
 */
export function followFaults(book: Book, cast: Cast, { bay, plan, finishAt }: FollowedBay): void {
  if (finishAt === null) return
  if (plan.fate === 'curing skipped') openTheDust(book, cast, bay, finishAt)
  if (plan.fate === 'sheet lifted') gaugeTheCrack(book, cast, bay, plan, finishAt)
}

/** Scratched and ground in steps: a soft skin, hard below. */
function openTheDust(book: Book, cast: Cast, bay: string, finishAt: number): void {
  const defect = defectsOf(book, bay, 'S01')[0]
  if (defect === undefined) return
  const person = cast.qualityManager
  const at = finishAt + 16 * dayMs
  book.note('fault-evidence-noted', {
    subject: bay,
    at,
    person,
    body: {
      defect,
      evidence: 'E45',
      found: 'true',
      method: 'scratch',
      lookedBy: 'Nora Vale',
      place: 'Grid of 1 m, 36 points, F4 scratched for comparison',
      note: 'Grade 2 nearly everywhere, 3 by the windows; hard under 1 to 2 mm',
    },
  })
  book.note('defect-measured', {
    subject: bay,
    at: at + 2 * hourMs,
    person,
    body: {
      defect,
      method: 'grinding',
      areaM2: 36,
      weakToMm: 2,
      pullOffMPa: 1.3,
      note: 'Three patches of 200 mm ground in steps of 1 mm; sound at 2 mm in all of them',
    },
  })
}

/** Widths at one pair of studs [mm] with the surface of the screed [°C], days after the finish. */
const gauge = [
  [13, 0.4, 15.5],
  [17, 0.41, 16.2],
  [20, 0.4, 15.1],
  [24, 0.42, 16.8],
  [28, 0.4, 14.9],
  [31, 0.41, 15.6],
] as const

function gaugeTheCrack(
  book: Book,
  cast: Cast,
  bay: string,
  plan: FollowedBay['plan'],
  finishAt: number,
): void {
  const { x, y, w, h } = plan.rect
  const foundAt = finishAt + 12 * dayMs + 3 * hourMs
  const line = [
    { x: x + w / 2 + 0.1, y },
    { x: x + w / 2 + 0.3, y: y + h / 2 },
    { x: x + w / 2 + 0.1, y: y + h },
  ]
  const defect = book.note('defect-found', {
    subject: bay,
    at: foundAt,
    person: cast.supervisor,
    body: {
      symptom: 'S06',
      firstSeenOn: dayOf(foundAt),
      extent: 'part',
      lengthM: 2.4,
      widthMm: 0.4,
      cardSlidesIn: false,
      growing: 'not known',
      shape: 'line',
      outline: line,
      x: line[1]!.x,
      y: line[1]!.y,
      structuralSigns: 'none',
      note: 'From wall to wall, half way along; no step, both sides firm under the hammer',
    },
  })
  for (const [day, widthMm, surfaceC] of gauge) {
    book.note('crack-gauged', {
      subject: bay,
      at: finishAt + day * dayMs - 2 * hourMs,
      person: cast.supervisor,
      body: { defect, widthMm, surfaceC, place: 'Studs at the middle of the crack' },
    })
  }
}

/** The standing defects of a bay with this symptom that the demonstration has told so far. */
function defectsOf(book: Book, bay: string, symptom: string): EntryId[] {
  return book.pages().flatMap((page) => {
    if (!('entry' in page)) return []
    const { id, kind, subject, body } = page.entry
    return kind === 'defect-found' && subject === bay && body.symptom === symptom ? [id as EntryId] : []
  })
}
