import type { BayId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import { type Chance, round } from './chance.ts'
import type { BayPlan } from './scenario.ts'
import { dayMs, hourMs, minuteMs } from './site-clock.ts'
import { type RoomAir, screedTemperature } from './weather.ts'

/** Sheets, barriers, boards, keys and breaches from the finish on. Returns when the bay was last uncovered. */
export function careForBay(book: Book, cast: Cast, bay: BayId, plan: BayPlan, finishAt: number): number {
  const person = cast.supervisor
  const sheetAt = plan.fate === 'curing skipped' ? finishAt + 31 * hourMs : finishAt + 40 * minuteMs
  const offAt =
    plan.fate === 'curing skipped' ? sheetAt + 2.4 * dayMs : finishAt + plan.curedDays * dayMs - 30 * minuteMs
  const on = (at: number, note?: string) =>
    book.note('sheet-on', {
      subject: bay,
      at,
      person,
      body: {
        material: 'polyethylene',
        coveredPercent: 100,
        edgesHeld: true,
        lapMm: 200,
        ...(note === undefined ? {} : { note }),
      },
    })
  const off = (at: number, why: 'end of curing' | 'lifted' | 'blown off') =>
    book.note('sheet-off', { subject: bay, at, person, body: { why } })

  book.note('protection-on', {
    subject: bay,
    at: finishAt + 5 * minuteMs,
    person,
    body: { what: 'windows closed' },
  })
  book.note('protection-on', {
    subject: bay,
    at: finishAt + 20 * minuteMs,
    person,
    body: { what: 'barrier' },
  })
  on(sheetAt)
  if (plan.fate === 'sheet lifted') {
    off(finishAt + 2 * dayMs, 'lifted')
    on(finishAt + 2 * dayMs + 3.5 * hourMs, 'Laid again after the electrician left')
  }
  off(offAt, 'end of curing')

  if (plan.fate === 'early ladder') {
    book.note('traffic-seen', {
      subject: bay,
      at: finishAt + 2.8 * dayMs,
      person,
      source: 'told by',
      body: {
        traffic: 'ladder',
        contact: 'point',
        boards: false,
        massKg: 110,
        x: plan.rect.x + 1.2,
        y: plan.rect.y + 3.1,
        note: 'Step ladder under the ceiling grid, seen from the door; sheet marked at two feet',
      },
    })
  } else {
    const kept = { heldBy: 'Ida Marsh, barrier at both doors' }
    book.note('no-traffic-confirmed', { subject: bay, at: finishAt + 4 * dayMs, person, body: kept })
    book.note('no-traffic-confirmed', { subject: bay, at: finishAt + 7 * dayMs, person, body: kept })
  }
  book.note('protection-on', {
    subject: bay,
    at: offAt + 20 * minuteMs,
    person,
    body: { what: 'boards', note: 'On all routes, until the covering' },
  })
  return offAt
}

/** Twice-daily readings of the first week and the logger's downloads since. */
export function logClimate(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  room: RoomAir,
  startAt: number,
  finishAt: number,
  now: number,
  chance: Chance,
): void {
  const pull =
    plan.fate === 'frozen on night 2'
      ? { from: finishAt + 33 * hourMs, until: finishAt + 42 * hourMs, toC: -1.6 }
      : { from: 0, until: 0, toC: 0 }
  const screedC = screedTemperature(room, startAt, pull)
  typedReadings(book, cast, bay, room, screedC, finishAt, chance)

  const downloadsAt = [finishAt + 7.2 * dayMs, now - 4 * hourMs].filter(
    (at) => at > finishAt + 20 * hourMs && at < now,
  )
  let from = startAt
  for (const [i, until] of downloadsAt.entries()) {
    const kept = room.at.map((at, k) => (at > from && at <= until ? k : -1)).filter((k) => k >= 0)
    if (kept.length < 12) continue
    const pick = (values: number[], digits: number) => kept.map((k) => round(values[k]!, digits))
    const at = kept.map((k) => room.at[k]!)
    const early = until <= finishAt + 7.3 * dayMs
    book.download({
      subject: bay,
      person: cast.supervisor,
      recordedAt: until + 10 * minuteMs,
      fileName: `${plan.name.toLowerCase()}-logger-${i + 1}.csv`,
      columns: [
        { quantity: 'airC', heading: 'air C', at, value: pick(room.airC, 1) },
        { quantity: 'rhPercent', heading: 'rh %', at, value: pick(room.rhPercent, 1) },
        ...(early
          ? [{ quantity: 'screedC' as const, heading: 'screed C', at, value: pick(screedC, 2) }]
          : []),
      ],
    })
    from = until
  }
}

function typedReadings(
  book: Book,
  cast: Cast,
  bay: BayId,
  room: RoomAir,
  screedC: number[],
  finishAt: number,
  chance: Chance,
): void {
  for (let k = 0; k < room.at.length; k++) {
    const at = room.at[k]!
    const hour = new Date(at).getUTCHours()
    if (at < finishAt - 3 * hourMs || at > finishAt + 7.5 * dayMs || (hour !== 7 && hour !== 15)) continue
    const airC = room.airC[k]!
    book.note('air-read', {
      subject: bay,
      at: at + chance.between(2, 25) * minuteMs,
      person: cast.supervisor,
      body: {
        airC: round(airC, 1),
        rhPercent: round(room.rhPercent[k]!, 0),
        airSpeedMs: round(chance.between(0.02, 0.18), 2),
        surfaceC: round(at < finishAt ? airC : screedC[k]!, 1),
        openings: 'closed',
        place: 'room',
      },
    })
  }
}
