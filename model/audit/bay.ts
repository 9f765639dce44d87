import { type HoldLink, holdChainFrom } from '#model/hold/index.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { factsOf } from '#model/watch/facts/index.ts'
import { allAlerts } from '#model/watch/watch.ts'
import { type Completeness, completenessOf } from './completeness/index.ts'
import { type Corroboration, corroborationOf, type Question, questionsOfBay } from './honesty/index.ts'
import { type TestLine, testLinesOf } from './moisture-tests.ts'
import { type Nonconformance, nonconformancesOf } from './nonconformances.ts'

/** Everything that the audit says of one bay. */
export interface BayAudit {
  completeness: Completeness
  questions: Question[]
  corroboration: Corroboration[]
  tests: TestLine[]
  holds: HoldLink[]
  nonconformances: Nonconformance[]
}

/**
 * Returns the audit of a bay as of an instant: what its record holds of what it must hold, and what it may be asked.
 * @param asOf epoch milliseconds; the story is cut there
 * @param knownAt forget what had not been recorded by then
 */
export function auditOfBay(story: BayStory, asOf: number, rules: EffectiveRules, knownAt?: number): BayAudit {
  const facts = factsOf(storyAsOf(story, asOf, knownAt), asOf, rules)
  return {
    completeness: completenessOf({ facts, alerts: allAlerts(facts) }),
    questions: questionsOfBay(facts),
    corroboration: corroborationOf(facts),
    tests: testLinesOf(facts),
    holds: holdChainFrom(facts),
    nonconformances: nonconformancesOf(facts.story),
  }
}
