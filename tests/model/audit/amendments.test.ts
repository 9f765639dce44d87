// An amendment is a version after the first: who, when, why, old against new. What follows from the words of the record;
// no values from outside.
import { describe, expect, it } from 'vitest'
import { amendmentsOf } from '#model/audit/index.ts'
import { day, hour, storyOf } from '../../support/story.ts'
import { now, t0 } from './whole-bay.ts'

const corrected = () => {
  const story = storyOf().air(t0, { airC: 17, rhPercent: 50 })
  return story.correct<'air-read'>(story.last, t0 + day, { airC: 18, rhPercent: 50 }, t0 + hour)
}

describe('AMEND-1: what was changed', () => {
  it('AMEND-1: a correction says what was and what is, the moment among it', () => {
    const [one, ...rest] = amendmentsOf(corrected().build().entries, 0)
    expect(rest).toEqual([])
    expect(one).toMatchObject({
      what: 'corrected',
      at: t0 + day,
      reason: 'Misread',
      kind: 'air-read',
      firstAt: t0,
    })
    expect(one?.changes).toEqual([
      {
        field: 'happenedAt',
        label: 'When it happened',
        from: new Date(t0).toISOString(),
        to: new Date(t0 + hour).toISOString(),
      },
      { field: 'airC', label: 'Air temperature', from: 17, to: 18 },
    ])
  })

  it('AMEND-1: a field that the first version did not hold was nothing before', () => {
    const story = storyOf().air(t0, { airC: 17 })
    story.correct<'air-read'>(story.last, t0 + day, { airC: 17, rhPercent: 50 })
    expect(amendmentsOf(story.build().entries, 0)[0]?.changes).toEqual([
      { field: 'rhPercent', label: 'Relative humidity', from: null, to: 50 },
    ])
  })

  it('AMEND-1: what takes a withdrawal back is told as that, and not as a correction of nothing', () => {
    const body = { airC: 17, rhPercent: 50 }
    const story = storyOf().air(t0, body)
    story.withdraw(story.last, t0 + day).correct<'air-read'>(story.last, t0 + 2 * day, body)
    const { entries } = story.build()
    entries[0]!.versions.at(-1)!.kind = 'air-read'
    const told = amendmentsOf(entries, 0).map(({ what, changes }) => [what, changes])
    expect(told).toEqual([
      ['brought back', []],
      ['withdrawn', []],
    ])
  })

  it('AMEND-1: a withdrawal changes no field and keeps its reason', () => {
    const story = corrected()
    story.withdraw(story.last, t0 + 2 * day)
    const [withdrawn, correction] = amendmentsOf(story.build().entries, 0)
    expect(withdrawn).toMatchObject({ what: 'withdrawn', changes: [], reason: 'Entered in error' })
    expect(correction?.what).toBe('corrected')
  })

  it.each([
    ['the moment itself', t0 + day, 1],
    ['a moment later', t0 + day + 1, 0],
  ])('AMEND-1: since %s', (_, since, count) => {
    expect(amendmentsOf(corrected().build().entries, since)).toHaveLength(count)
  })

  it('AMEND-1: a record without corrections has none', () => {
    expect(amendmentsOf(storyOf().air(t0, { airC: 17 }).build().entries, 0)).toEqual([])
    expect(now).toBeGreaterThan(t0)
  })
})
