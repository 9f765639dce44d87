import type { BodyOf } from '#model/record/kinds.ts'
import { day, hour, instant, type StoryBuilder, storyOf } from '../../support/story.ts'

export const t0 = instant('2026-01-05T14:00:00Z')
/** 120 days after the finish. */
export const now = t0 + 120 * day
const iso = (at: number) => new Date(at).toISOString()

type Part =
  | 'sheet'
  | 'thickness'
  | 'soundness'
  | 'regularity'
  | 'box'
  | 'climate'
  | 'finish'
  | 'temperature'
  | 'instrument'

interface Changes {
  without?: Part[]
  test?: Partial<BodyOf<'moisture-read'>>
  testedAt?: number
  rhPercent?: number
  points?: string[]
  setting?: Parameters<typeof storyOf>[0]
}

/** A box test that nothing can be said against: 96 h in place, two equal readings a day apart, probe checked a week before. */
export function boxTest(
  story: StoryBuilder,
  at: number,
  rhPercent: number,
  change: Partial<BodyOf<'moisture-read'>> = {},
) {
  return story.note('moisture-read', at, {
    method: 'hygrometer box',
    point: 'P1',
    wettestPoint: true,
    setAt: iso(at - 96 * hour),
    readings: [
      { at: iso(at - 24 * hour), rhPercent },
      { at: iso(at), rhPercent },
    ],
    probeSoakMin: 45,
    sealOk: true,
    neverHeated: true,
    roomC: 20,
    floorC: 19.5,
    roomRhPercent: 45,
    ...change,
  })
}

/** A bay on which everything was done and recorded as it should be. `without` leaves one thing out. */
export function readyBay({
  without = [],
  test = {},
  testedAt = now - 3 * day,
  rhPercent = 72,
  points = ['P1', 'P2', 'P3'],
  setting = {},
}: Changes = {}): StoryBuilder {
  const has = (part: Part) => !without.includes(part)
  const story = storyOf(setting)
  story.note('edge-strip-fitted', t0 - 20 * hour, { thicknessMm: 10, complete: true })
  if (has('finish')) story.finished(t0)
  story.batch(t0 - 2 * hour, { laidAt: iso(t0 - 1.8 * hour) })
  story.lift(1, t0 - 2 * hour, t0 - hour, { roughened: true }).lift(2, t0 - 0.9 * hour, t0)
  if (has('temperature')) story.logger(t0 - 2 * hour, { screedC: Array.from({ length: 24 * 12 }, () => 16) })
  if (has('sheet')) story.sheetOn(t0 + hour).sheetOff(t0 + 8 * day)
  story.note('protection-on', t0 + 8 * day + hour, { what: 'boards' })
  if (has('thickness')) story.thickness(t0, 70, 68, 69, 71)
  if (has('soundness')) {
    story.note('soundness-tested', t0 + 16 * day, {
      weightKg: '2',
      blows: 4,
      points: [{ indentationMm: 1.2 }, { indentationMm: 2.5 }, { indentationMm: 1.8 }],
    })
  }
  if (has('regularity')) {
    story.note('regularity-checked', t0 + 40 * day, { straightedgeM: 2, gapsMm: [{ mm: 2 }, { mm: 5 }] })
  }
  let instrument: BodyOf<'moisture-read'>['instrument']
  if (has('instrument')) {
    story.note('instrument-added', t0, { type: 'hygrometer', serial: 'H-1', dueOn: '2027-01-01' })
    instrument = story.last as unknown as BodyOf<'moisture-read'>['instrument']
    story.note(
      'instrument-checked',
      testedAt - 7 * day,
      { check: 'salt', foundPercent: 75.2, passed: true },
      { subject: instrument },
    )
  }
  if (has('box'))
    for (const point of points) boxTest(story, testedAt, rhPercent, { point, instrument, ...test })
  if (has('climate')) story.air(now - 2 * hour, { airC: 20, rhPercent: 50, surfaceC: 19 })
  return story
}
