import type { EntryId, InstrumentId, PersonId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Chance } from './chance.ts'
import { dayMs, dayOf } from './site-clock.ts'

export interface Cast {
  supervisor: PersonId
  qualityManager: PersonId
  flooring: PersonId
  tester: PersonId
  hygrometer: InstrumentId
  oldHygrometer: InstrumentId
  dropWeight: InstrumentId
  straightedge: InstrumentId
}

/** The people and instruments of the job. Names and firms are invented. */
export function introduceCast(book: Book, openedAt: number, qualityManager: PersonId, chance: Chance): Cast {
  const person = (name: string, firm: string, role: 'supervisor' | 'flooring contractor' | 'tester') =>
    book.note('person-added', {
      at: openedAt + 60_000,
      person: qualityManager,
      body: { name, firm, role },
    }) as unknown as PersonId
  const instrument = (
    type: 'hygrometer' | 'drop weight' | 'straightedge',
    serial: string,
    certificateAgoDays: number,
    dueInDays: number,
  ) =>
    book.note('instrument-added', {
      at: openedAt + 120_000,
      person: qualityManager,
      body: {
        type,
        serial,
        certificate: `C-${1000 + Math.floor(chance.next() * 9000)}`,
        certificateOn: dayOf(openedAt - certificateAgoDays * dayMs),
        dueOn: dayOf(openedAt + dueInDays * dayMs),
      },
    }) as unknown as InstrumentId
  return {
    supervisor: person('Ida Marsh', 'Screed crew', 'supervisor'),
    qualityManager,
    flooring: person('Tomas Reed', 'Floor layers', 'flooring contractor'),
    tester: person('Wen Alder', 'Independent tester', 'tester'),
    hygrometer: instrument('hygrometer', 'H-204', 40, 325),
    oldHygrometer: instrument('hygrometer', 'H-117', 340, 25),
    dropWeight: instrument('drop weight', 'D-31', 90, 275),
    straightedge: instrument('straightedge', 'S-2', 30, 335),
  }
}

/** A salt check of a hygrometer: it must read 75 ± 2 % over saturated salt. */
export function saltCheck(
  book: Book,
  cast: Cast,
  instrument: InstrumentId,
  at: number,
  foundPercent: number,
): EntryId {
  return book.note('instrument-checked', {
    subject: instrument,
    at,
    person: cast.tester,
    body: { check: 'salt', foundPercent, soakHours: 18, passed: Math.abs(foundPercent - 75) <= 2 },
  })
}
