import type { BayId, InstrumentId } from '#model/record/ids.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import { type Chance, round } from './chance.ts'
import { laidOverMm } from './pour.ts'
import type { BayPlan } from './scenario.ts'
import { dayMs, hourMs, iso } from './site-clock.ts'
import type { TrueBay } from './true-bay.ts'

/** Soundness at two weeks, regularity and level once the edges have had four weeks to curl: each where the rule wants its points. */
export function testBody(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  finishAt: number,
  weightKg: '2' | '4',
  chance: Chance,
): void {
  const soft = plan.fate === 'frozen on night 2' ? 4.5 : plan.fate === 'curing skipped' ? 1.2 : 0
  const count = Math.max(3, Math.ceil((plan.rect.w * plan.rect.h) / 20) * 3)
  const base = weightKg === '2' ? 1.2 : 2.1
  book.note('soundness-tested', {
    subject: bay,
    at: finishAt + 15.8 * dayMs,
    person: cast.tester,
    body: {
      weightKg,
      blows: 4,
      points: Array.from({ length: count }, (_, i) => ({
        indentationMm: round(base + soft + chance.between(-0.4, 0.7), 1),
        place: i === 0 ? ('doorway' as const) : i === 1 ? ('joint' as const) : ('field' as const),
        x: round(plan.rect.x + ((i + 0.5) / count) * plan.rect.w, 1),
        y: round(plan.rect.y + (i === 0 ? 0.4 : chance.between(1, plan.rect.h - 1)), 1),
      })),
      instrument: cast.dropWeight,
    },
  })
  const lines = Math.max(3, Math.ceil((plan.rect.w * plan.rect.h) / 10))
  book.note('regularity-checked', {
    subject: bay,
    at: finishAt + 38 * dayMs,
    person: cast.tester,
    body: {
      straightedgeM: 2,
      gapsMm: Array.from({ length: lines }, () => ({ mm: round(chance.between(0.8, 3.6), 1) })),
    },
  })
  book.note('level-checked', {
    subject: bay,
    at: finishAt + 38.05 * dayMs,
    person: cast.tester,
    body: { departuresMm: Array.from({ length: lines }, () => ({ mm: round(chance.between(-6, 6), 0) })) },
  })
}

export interface BoxTest {
  point: string
  x: number
  y: number
  setAt: number
  hours: number
  wettest: boolean
  instrument: InstrumentId
  heatingOffSince?: number
  repeat: boolean
}

/** A box test read from the true bay with the noise of a good probe; the reading is made by the model, and says so. */
export function boxTest(
  book: Book,
  cast: Cast,
  bay: BayId,
  truth: TrueBay,
  test: BoxTest,
  chance: Chance,
): void {
  const firstAt = test.setAt + test.hours * hourMs
  const first = round(truth.boxRhPercent(test.setAt, test.hours) + chance.noise(0.5), 1)
  const reading = (at: number, rhPercent: number) => ({
    at: iso(at),
    rhPercent,
    boxC: round(truth.roomC(at) + chance.noise(0.2), 1),
  })
  const readings = [reading(firstAt, first)]
  if (test.repeat) readings.push(reading(firstAt + dayMs, round(first + chance.between(-0.2, 0.3), 1)))
  const lastAt = test.repeat ? firstAt + dayMs : firstAt
  book.note('moisture-read', {
    subject: bay,
    at: lastAt,
    person: cast.tester,
    body: {
      method: 'hygrometer box',
      point: test.point,
      x: test.x,
      y: test.y,
      wettestPoint: test.wettest,
      instrument: test.instrument,
      setAt: iso(test.setAt),
      readings,
      probeSoakMin: 45,
      sealOk: true,
      ...(test.heatingOffSince === undefined
        ? { neverHeated: true }
        : { heatingOffSince: iso(test.heatingOffSince), driersOffSince: iso(test.heatingOffSince) }),
      roomC: round(truth.roomC(lastAt), 1),
      roomRhPercent: round(truth.roomRhPercent(lastAt), 0),
      floorC: round(truth.roomC(lastAt) - 0.4, 1),
      note: madeByModel,
    },
  })
}

/** A sleeve at 40 % depth, drilled once and read again and again: what the forecast learns from. */
export function probeReading(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  truth: TrueBay,
  drilledAt: number,
  at: number,
  chance: Chance,
): void {
  const offset = chance.noise(1)
  const read = (readAt: number) => ({
    at: iso(readAt),
    rhPercent: round(Math.min(99, truth.probeRhPercent(readAt) + offset + chance.between(-0.15, 0.15)), 1),
    boxC: round(truth.roomC(readAt), 1),
  })
  book.note('moisture-read', {
    subject: bay,
    at,
    person: cast.tester,
    body: {
      method: 'probe',
      point: 'P1',
      x: round(plan.rect.x + plan.rect.w / 2, 1),
      y: round(plan.rect.y + plan.rect.h / 2, 1),
      wettestPoint: true,
      instrument: cast.hygrometer,
      setAt: iso(drilledAt),
      holeDepthMm: round((plan.thicknessMm + laidOverMm) * 0.4, 0),
      pipesLocated: true,
      readings: [read(at - dayMs), read(at)],
      probeSoakMin: 60,
      sealOk: true,
      neverHeated: true,
      roomC: round(truth.roomC(at), 1),
      roomRhPercent: round(truth.roomRhPercent(at), 0),
      floorC: round(truth.roomC(at) - 0.3, 1),
      note: madeByModel,
    },
  })
}

export function carbideTest(
  book: Book,
  cast: Cast,
  bay: BayId,
  plan: BayPlan,
  truth: TrueBay,
  at: number,
  chance: Chance,
): void {
  book.note('moisture-read', {
    subject: bay,
    at,
    person: cast.tester,
    body: {
      method: 'carbide',
      point: 'C1',
      x: round(plan.rect.x + plan.rect.w / 2, 1),
      y: round(plan.rect.y + plan.rect.h / 2, 1),
      wettestPoint: true,
      sampleG: 100,
      depthFromMm: 0,
      depthToMm: plan.thicknessMm,
      cmPercent: round(Math.max(0.1, truth.massPercent(at) + chance.noise(0.08)), 2),
      roomC: round(truth.roomC(at), 1),
      roomRhPercent: round(truth.roomRhPercent(at), 0),
      note: madeByModel,
    },
  })
}

const madeByModel = 'Demonstration: this reading was made by the drying model with noise, not measured.'
