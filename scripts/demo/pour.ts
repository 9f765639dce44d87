import type { BayId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import { type Chance, round } from './chance.ts'
import type { BayPlan } from './scenario.ts'
import { dayMs, hourMs, iso, minuteMs } from './site-clock.ts'

const freshDensityKgM3 = 2000
/** What the crew lays above the design, on the average. */
export const laidOverMm = 2

/** Survey, edge strip, batches, two lifts, finish, thickness: one bay laid as it should be. Returns its finish. */
export function pourBay(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  startAt: number,
  chance: Chance,
): number {
  const { rect } = plan
  const areaM2 = rect.w * rect.h
  const person = cast.supervisor
  prepareBase(book, cast, bay, startAt - dayMs, chance)

  const finishAt =
    plan.screed === 'calcium sulfate'
      ? pourFlowing(book, cast, bay, plan, startAt, chance)
      : layByHand(book, cast, bay, plan, startAt, chance)

  book.note('bay-finished', {
    subject: bay,
    at: finishAt,
    person,
    body: {
      startedAt: iso(startAt),
      finish: plan.screed === 'calcium sulfate' ? 'dappled' : 'float',
      splashed: false,
      crew: 4,
      meanThicknessMm: plan.thicknessMm,
    },
  })
  const points = Array.from({ length: Math.max(3, Math.ceil(areaM2 / 9)) }, (_, i) => ({
    mm: round(plan.thicknessMm + laidOverMm + chance.between(-3, 3), 0),
    x: round(rect.x + ((i + 0.5) / Math.ceil(areaM2 / 9)) * rect.w, 1),
    y: round(rect.y + chance.between(0.5, rect.h - 0.5), 1),
  }))
  book.note('thickness-measured', { subject: bay, at: finishAt - 15 * minuteMs, person, body: { points } })
  return finishAt
}

/** The base looked at, and the edge strip fitted four hours later. */
export function prepareBase(book: Book, cast: Cast, bay: BayId, surveyedAt: number, chance: Chance): void {
  book.note('base-surveyed', {
    subject: bay,
    at: surveyedAt,
    person: cast.supervisor,
    body: {
      prepared: 'membrane',
      dry: true,
      clean: true,
      baseC: round(9 + chance.noise(1), 1),
      highSpotMm: round(chance.between(0, 6), 0),
    },
  })
  book.note('edge-strip-fitted', {
    subject: bay,
    at: surveyedAt + 4 * hourMs,
    person: cast.supervisor,
    body: { thicknessMm: 10, complete: true },
  })
}

/** Semi-dry screed in two lifts; each batch is drawn where it was laid, a strip across the bay. */
function layByHand(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  startAt: number,
  chance: Chance,
): number {
  const { rect } = plan
  const batches = Math.ceil((rect.w * rect.h * (plan.thicknessMm / 1000) * freshDensityKgM3) / 262)
  const minutesEach = 10
  for (let i = 0; i < batches; i++) {
    const mixedAt = startAt + (i * minutesEach + chance.between(0, 3)) * minuteMs
    const laidAt = mixedAt + chance.between(9, 18) * minuteMs
    const fromX = rect.x + (rect.w * i) / batches
    book.note('batch-mixed', {
      subject: bay,
      at: mixedAt,
      person: cast.supervisor,
      writtenAfterMin: 30,
      body: {
        number: i + 1,
        cementKg: 50,
        cementType: 'CEM I 42.5 N',
        dampSandKg: round(200 + chance.noise(3), 0),
        sandMoisturePercent: round(6 + chance.noise(0.4), 1),
        addedWaterKg: round(10 + chance.noise(0.5), 1),
        mixer: 'forced action',
        mixingMinutes: round(4 + chance.between(-0.8, 1.2), 1),
        squeeze: 'holds',
        mixC: round(12 + chance.noise(0.8), 1),
        // A batch still in the barrow has not been laid, and nobody can have written down that it was.
        ...(laidAt <= book.now ? { laidAt: iso(laidAt) } : {}),
        fromX: round(fromX, 2),
        toX: round(fromX + rect.w / batches, 2),
        fromY: rect.y,
        toY: rect.y + rect.h,
      },
    })
  }
  const finishAt = startAt + (batches * minutesEach + 35) * minuteMs
  const lower = Math.round(plan.thicknessMm / 2)
  const lift = (number: number, from: number, until: number, thicknessMm: number) =>
    book.note('lift-laid', {
      subject: bay,
      at: until,
      person: cast.supervisor,
      body: {
        lift: number,
        startedAt: iso(from),
        finishedAt: iso(until),
        thicknessMm,
        compaction: 'tamped',
        ...(number === 1 ? { roughened: true } : {}),
      },
    })
  const half = startAt + (finishAt - startAt) * 0.5
  lift(1, startAt + 10 * minuteMs, half, lower)
  lift(2, half + 8 * minuteMs, finishAt - 10 * minuteMs, plan.thicknessMm - lower)
  return finishAt
}

/** Flowing screed comes ready-mixed and is dappled in one go. */
function pourFlowing(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  startAt: number,
  chance: Chance,
): number {
  const { rect } = plan
  book.note('material-delivered', {
    subject: bay,
    at: startAt,
    person: cast.supervisor,
    body: {
      ticket: `T-${Math.floor(chance.between(10000, 99999))}`,
      material: 'ready-mixed screed',
      quantity: round(rect.w * rect.h * (plan.thicknessMm / 1000) * 2050 * 1.03, 0),
      batchedAt: iso(startAt - 50 * minuteMs),
      arrivedAt: iso(startAt - 15 * minuteMs),
      workingLifeMin: 240,
      temperatureC: round(14 + chance.noise(1), 1),
    },
  })
  const finishAt = startAt + 100 * minuteMs
  book.note('lift-laid', {
    subject: bay,
    at: finishAt,
    person: cast.supervisor,
    body: {
      lift: 1,
      startedAt: iso(startAt),
      finishedAt: iso(finishAt),
      thicknessMm: plan.thicknessMm,
      compaction: 'flowing',
    },
  })
  return finishAt
}
