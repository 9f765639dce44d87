// 14 days for a stale test: our judgement, the rule "test.ageDays".
import { describe, expect, it } from 'vitest'
import { holdsUntil, readinessOf } from '#model/readiness/index.ts'
import { storyAsOf } from '#model/record/story.ts'
import { effectiveRules } from '#model/rules/index.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { day, hour } from '../../support/story.ts'
import { boxTest, now, readyBay } from './ready-bay.ts'

const british = effectiveRules('british')
const facts = (story: ReturnType<typeof readyBay>, asOf = now) =>
  factsOf(storyAsOf(story.build(), asOf), asOf, british)

function notStale(story: ReturnType<typeof readyBay>, asOf: number) {
  const { conditions } = readinessOf(story.build(), 'vinyl', asOf, british)
  return conditions.find(({ name }) => name === 'Test not stale')?.state
}

describe('until when the tests count', () => {
  it('HOLDS-1: fourteen days after the test, to the minute at which the verdict turns', () => {
    const story = readyBay()
    const { until, endedBy } = holdsUntil(facts(story), 'vinyl')
    expect(until).toBe(now - 3 * day + 14 * day)
    expect(endedBy).toBeNull()
    expect(notStale(story, until!)).toBe('met')
    expect(notStale(story, until! + 60_000)).toBe('unknown')
  })

  it('HOLDS-2: of several places, when too few are fresh or the wettest is not', () => {
    const story = readyBay()
    boxTest(story, now - 1 * day, 70, { point: 'P2', wettestPoint: false })
    const { until } = holdsUntil(facts(story), 'vinyl')
    expect(until).toBe(now - 3 * day + 14 * day)
    expect(notStale(story, until!)).toBe('met')
    expect(notStale(story, until! + 60_000)).toBe('unknown')
  })

  it('HOLDS-3: anything that wets the floor after the test ends it', () => {
    const story = readyBay()
    story.note('wet-event-noted', now - hour, { what: 'leak', stopped: true })
    const holding = holdsUntil(facts(story), 'vinyl')
    expect(holding.endedBy?.what).toBe('leak')
    expect(readinessOf(story.build(), 'vinyl', now, british).verdict).not.toBe('ready')
  })

  it('HOLDS-4: without a test that counts nothing holds', () => {
    expect(holdsUntil(facts(readyBay({ without: ['box'] })), 'vinyl')).toEqual({ until: null, endedBy: null })
    const notWettest = readyBay({ test: { wettestPoint: false } })
    expect(holdsUntil(facts(notWettest), 'vinyl').until).toBeNull()
  })
})
