import { entriesOf } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { countingTests, type JudgedTest, judgedTests, pointsNeeded } from '#model/watch/facts/moisture.ts'
import { dayMs } from '#model/watch/facts/time.ts'

/** How long the tests of a bay prove anything. */
export interface HoldsUntil {
  /** The last moment at which enough tests are fresh [epoch ms]; null when there are not enough that count. */
  until: number | null
  /** What has wetted the floor since the first of them: then they prove nothing any more. */
  endedBy: { entry: string; what: string } | null
}

/**
 * Returns until when the moisture tests of a bay count: their age limit (14 days unless the project set another), and
 * not past anything that wets the floor. Enough places must still be fresh, the wettest among them.
 * @source the rule "test.ageDays" of the project, with its own provenance
 * @provenance our judgement: a wetting, however small, asks for a new test
 */
export function holdsUntil(facts: BayFacts, covering: Covering): HoldsUntil {
  const counting = countingTests(judgedTests(facts, covering), facts.story.zone.body.moistureMethod)
  return { until: lastFreshMoment(facts, counting), endedBy: wettedSince(facts, counting) }
}

function lastFreshMoment(facts: BayFacts, counting: readonly JudgedTest[]): number | null {
  const keepsMs = facts.rules.limits['test.ageDays'].value * dayMs
  const ends = counting.map(({ at }) => at + keepsMs).sort((a, b) => b - a)
  const enough = ends[pointsNeeded(facts) - 1]
  const wettest = counting
    .filter(({ entry }) => entry.body.wettestPoint === true)
    .map(({ at }) => at + keepsMs)
  return enough === undefined || wettest.length === 0 ? null : Math.min(enough, Math.max(...wettest))
}

function wettedSince({ story }: BayFacts, counting: readonly JudgedTest[]): HoldsUntil['endedBy'] {
  if (counting.length === 0) return null
  const first = Math.min(...counting.map(({ at }) => at))
  const wetting = entriesOf(story, 'wet-event-noted').find(
    ({ happenedAt, body }) => happenedAt > first || body.stopped === false,
  )
  return wetting === undefined ? null : { entry: wetting.id, what: wetting.body.what }
}
