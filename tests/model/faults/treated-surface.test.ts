import { describe, expect, it } from 'vitest'
import { readinessOf } from '#model/readiness/index.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { judgedTests } from '#model/watch/facts/moisture.ts'
import { day, type StoryBuilder } from '../../support/story.ts'
import { now, readyBay, t0 } from '../readiness/ready-bay.ts'
import { british } from '../watch/support.ts'
import { iso, withDefect } from './support.ts'

const repairedAt = t0 + 90 * day

/** A crack found, named and repaired, and then closed, on a bay that is READY otherwise. */
function repaired(
  story: StoryBuilder,
  change: Partial<BodyOf<'repair-done'>>,
  place: Record<string, unknown> = {},
) {
  withDefect(story, 'S06', t0 + 80 * day, place)
  const defect = story.last
  story.note('cause-named', t0 + 85 * day, {
    defects: [{ defect }],
    cause: 'unknown',
    treatedAs: 'dormant shrinkage',
    reason: 'Gauge still for 14 days',
    weightsVersion: '1',
    shown: [{ cause: 'BAY', probability: 0.5, logOdds: 0, examined: false }],
  })
  const diagnosis = story.last
  story.note('repair-done', repairedAt, {
    defect,
    diagnosis,
    option: 'fill',
    lengthM: 4,
    startedOn: iso(repairedAt).slice(0, 10),
    finishedOn: iso(repairedAt).slice(0, 10),
    ...change,
  })
  return story.note('defect-closed', repairedAt + day, {
    defect,
    how: 'repaired',
    note: 'Tapped along, firm.',
  })
}

const verdicts = (story: StoryBuilder) =>
  judgedTests(factsOf(story.build(), now, british), 'vinyl').map(({ acceptance }) => acceptance)
const whole = [
  { x: 0, y: 0 },
  { x: 5, y: 0 },
  { x: 5, y: 4 },
  { x: 0, y: 4 },
]

/** Resin hides vapour from a box on it. Provenance: common practice. */
describe('TRT: a hygrometer box on a treated surface', () => {
  it('TRT-0: without a repair the bay is ready (control)', () => {
    expect(readinessOf(readyBay().build(), 'vinyl', now, british).verdict).toBe('ready')
  })

  it('TRT-1: consolidated all over, the boxes are invalid and the bay is not ready', () => {
    const story = repaired(readyBay(), { option: 'consolidate', outline: whole, areaM2: 20 })
    expect(verdicts(story).map(({ verdict }) => verdict)).toEqual(['invalid', 'invalid', 'invalid'])
    expect(verdicts(story)[0]!.reasons.join(' ')).toMatch(
      /sealed, so a box on it cannot see the screed; use a probe/,
    )
    expect(readinessOf(story.build(), 'vinyl', now, british).verdict).not.toBe('ready')
  })

  it('TRT-2: beside a filled crack whose line is known a box away from it counts, one on it does not', () => {
    const line = {
      shape: 'line',
      outline: [
        { x: 2.5, y: 0 },
        { x: 2.5, y: 4 },
      ],
    }
    const away = repaired(readyBay({ test: { x: 1, y: 1 } }), {}, line)
    expect(verdicts(away).map(({ verdict }) => verdict)).toEqual(['pass', 'pass', 'pass'])
    expect(readinessOf(away.build(), 'vinyl', now, british).verdict).toBe('ready')
    const onIt = repaired(readyBay({ test: { x: 2.6, y: 1 } }), {}, line)
    expect(verdicts(onIt).map(({ verdict }) => verdict)).toEqual(['invalid', 'invalid', 'invalid'])
  })

  it('TRT-3: when nobody wrote down where, the test is not known: neither good nor bad', () => {
    const story = repaired(readyBay(), {})
    expect(verdicts(story)[0]).toMatchObject({
      verdict: 'not known',
      reasons: [expect.stringMatching(/whether the box stands clear of the surface that a repair treated/)],
    })
    expect(readinessOf(story.build(), 'vinyl', now, british).verdict).not.toBe('ready')
  })

  it('TRT-4: a joint leaves no resin, and a repair after the test does not reach back', () => {
    const joint = repaired(readyBay(), { option: 'turn into joint' })
    expect(verdicts(joint)[0]!.verdict).toBe('pass')
    const later = repaired(readyBay({ testedAt: repairedAt - day }), { option: 'consolidate', areaM2: 20 })
    expect(verdicts(later)[0]!.verdict).toBe('pass')
  })

  it('TRT-5: what the record says of the surface goes before what the repair usually leaves', () => {
    expect(verdicts(repaired(readyBay(), { sealsSurface: false }))[0]!.verdict).toBe('pass')
    expect(
      verdicts(repaired(readyBay(), { option: 'patch', areaM2: 20, sealsSurface: true }))[0]!.verdict,
    ).toBe('invalid')
  })
})
