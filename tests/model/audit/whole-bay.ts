import { auditOfBay, type RequirementId } from '#model/audit/index.ts'
import { type PersonId, uuidV7From } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { day, hour, instant, type StoryBuilder, storyOf } from '../../support/story.ts'
import { boxTest } from '../readiness/ready-bay.ts'

export const t0 = instant('2026-01-05T14:00:00Z')
/** 120 days after the finish. */
export const now = t0 + 120 * day
export const british = effectiveRules('british')
export const iso = (at: number) => new Date(at).toISOString()
export const second = uuidV7From<'person'>(1, new Uint8Array(10).fill(7)) as PersonId
export const third = uuidV7From<'person'>(2, new Uint8Array(10).fill(9)) as PersonId

export type Setting = Parameters<typeof storyOf>[0]
export type Part =
  | 'thickness'
  | 'batches'
  | 'air'
  | 'screed logger'
  | 'sheets'
  | 'strip'
  | 'strip photos'
  | 'traffic'
  | 'soundness'
  | 'flatness'
  | 'moisture'
  | 'release'

/** A photo of the bay as the record keeps it. */
export function photo(story: StoryBuilder, at: number, body: Partial<BodyOf<'photo-added'>>): StoryBuilder {
  return story.note('photo-added', at, {
    tag: 'other',
    quarterTurns: 0,
    format: 'image/jpeg',
    widthPx: 800,
    heightPx: 600,
    bytes: 1000,
    sha256: 'a'.repeat(64),
    originalSha256: 'b'.repeat(64),
    gpsKept: false,
    ...body,
  })
}

/** Eleven batches of 260 kg side by side: 2860 kg on 20 m² × 70 mm × 2000 kg/m³ = 2800 kg. */
export function elevenBatches(
  story: StoryBuilder,
  change: (i: number) => Partial<BodyOf<'batch-mixed'>> = () => ({}),
) {
  for (let i = 0; i < 11; i++) {
    const at = t0 - 3 * hour + i * 10 * 60_000
    story.batch(at, {
      laidAt: iso(at + 10 * 60_000),
      fromX: (5 / 11) * i,
      toX: (5 / 11) * (i + 1),
      fromY: 0,
      toY: 4,
      ...change(i),
    })
  }
  return story
}

/** A bay of 20 m² on which everything was done, written down in time and by two people. */
export function wholeBay(without: readonly Part[] = [], setting: Setting = {}): StoryBuilder {
  const has = (part: Part) => !without.includes(part)
  const story = storyOf(setting)
  if (has('strip')) story.note('edge-strip-fitted', t0 - day, { thicknessMm: 10, complete: true })
  if (has('strip photos'))
    for (let side = 0; side < 4; side++) photo(story, t0 - day + side * 60_000, { tag: 'edge strip' })
  if (has('batches')) elevenBatches(story)
  story.finished(t0)
  if (has('thickness')) story.thickness(t0, 70, 70)
  if (has('sheets')) story.sheetOn(t0 + hour).sheetOff(t0 + 8 * day)
  if (has('screed logger'))
    story.logger(t0, { screedC: Array.from({ length: 24 * 9 }, (_, i) => 16 + (i % 7) / 10) })
  if (has('air')) {
    for (let i = 0; i < 16; i++) {
      const body = { airC: 17 + i / 10, rhPercent: 40 + i, surfaceC: 15 + ((i * 7) % 16) / 10 }
      story.air(t0 + i * 12 * hour + hour, body)
    }
  }
  if (has('traffic')) story.note('no-traffic-confirmed', t0 + 7 * day, { heldBy: 'Ida Marsh' })
  if (has('soundness')) {
    story.note(
      'soundness-tested',
      t0 + 16 * day,
      {
        weightKg: '2',
        blows: 4,
        points: [
          { indentationMm: 1.2, place: 'doorway' },
          { indentationMm: 2.4, place: 'field' },
          { indentationMm: 1.8, place: 'field' },
        ],
      },
      { person: second },
    )
  }
  if (has('flatness'))
    story.note('regularity-checked', t0 + 40 * day, { straightedgeM: 2, gapsMm: [{ mm: 2 }, { mm: 5 }] })
  if (has('moisture')) moistureTests(story)
  if (has('release')) {
    story.note(
      'hold-point-released',
      now - hour,
      { point: 'release', decision: 'released', saw: 'All seen' },
      { person: third },
    )
  }
  return story
}

/** Three box tests by the tester, with a hygrometer in date and checked a week before. */
export function moistureTests(story: StoryBuilder, at = now - 3 * day, rhPercent = 72) {
  story.note('instrument-added', t0, { type: 'hygrometer', serial: 'H-1', dueOn: '2027-01-01' })
  const instrument = story.last as unknown as BodyOf<'moisture-read'>['instrument']
  story.note(
    'instrument-checked',
    at - 7 * day,
    { check: 'salt', foundPercent: 75.2, passed: true },
    { subject: instrument },
  )
  ;['P1', 'P2', 'P3'].forEach((point, i) => {
    boxTest(story, at, rhPercent - i / 10, { point, instrument })
  })
  return story
}

export function auditOf(story: StoryBuilder, asOf = now) {
  return auditOfBay(story.build(), asOf, british)
}

export function answerOf(id: RequirementId, story: StoryBuilder, asOf = now) {
  return auditOf(story, asOf).completeness.answers.find((one) => one.id === id)!
}

/** "met", "not met", "not known", "not yet", "does not apply": what a truth table compares. */
export function standing(id: RequirementId, story: StoryBuilder, asOf = now): string {
  const { state, notYet } = answerOf(id, story, asOf)
  return notYet ? 'not yet' : state
}
