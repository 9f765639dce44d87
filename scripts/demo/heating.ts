import type { BayId, ZoneId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import { type Chance, round } from './chance.ts'
import { dayMs, hourMs } from './site-clock.ts'

/** Flow temperatures day by day: 25 °C for three days, 5 K a day up to 45 °C, four days held, 5 K a day down. */
export const heatingDaysC = [25, 25, 25, 30, 35, 40, 45, 45, 45, 45, 40, 35, 30, 25]

/** The commissioning run of a heated zone, read twice a day. Returns when the heating was off. */
export function runHeating(
  book: Book,
  cast: Cast,
  zone: ZoneId,
  firstMorning: number,
  chance: Chance,
): number {
  for (const [day, flowC] of heatingDaysC.entries()) {
    for (const hours of [0, 8]) {
      book.note('heating-noted', {
        subject: zone,
        at: firstMorning + day * dayMs + hours * hourMs,
        person: cast.supervisor,
        body: {
          circuit: '1 to 4',
          state: 'running',
          flowC: round(flowC + chance.noise(0.1), 1),
          returnC: round(flowC - 5 + chance.noise(0.4), 1),
          surfaceC: round(15 + (flowC - 20) * 0.4 + chance.noise(0.3), 1),
          pressureBar: round(2.4 + chance.noise(0.05), 1),
          step: `Day ${day + 1} of ${heatingDaysC.length}`,
        },
      })
    }
  }
  const offAt = firstMorning + heatingDaysC.length * dayMs
  book.note('heating-noted', { subject: zone, at: offAt, person: cast.supervisor, body: { state: 'off' } })
  return offAt
}

/** The quality manager confirms the run for one bay, with the temperature it was designed for. */
export function confirmHeating(book: Book, cast: Cast, bay: BayId, at: number): void {
  book.note('hold-point-released', {
    subject: bay,
    at,
    person: cast.qualityManager,
    body: {
      point: 'heating run',
      decision: 'released',
      saw: 'Log read to the end; 45 °C is the highest design temperature of this circuit; off since, no cracks seen',
    },
  })
}

export function testPipes(book: Book, cast: Cast, zone: ZoneId, at: number): void {
  book.note('pipes-pressure-tested', {
    subject: zone,
    at,
    person: cast.tester,
    body: { medium: 'water', startBar: 5.0, endBar: 5.0, hours: 24, passed: true },
  })
}
