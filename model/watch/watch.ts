import { type BayStory, storyAsOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import type { Alert } from './alert.ts'
import { alertsBy } from './alerts.ts'
import { catalogue } from './catalogue.ts'
import { type BayFacts, factsOf } from './facts/index.ts'
import { coveredEarly } from './families/covered-early.ts'

/**
 * Returns every alert of a bay as of an instant, those that stand first, worst first; ended ones stay with `until`.
 *
 * The story is cut at `asOf`, so a replay knows nothing of what came after. With `knownAt` it also forgets what had not
 * been recorded by then. The same story, instant and rules always give the same alerts.
 *
 * @param asOf epoch milliseconds.
 * @param rules the limits in force; a company's own value acts like any other.
 * @source each alert names the source of its limit and how well it is known.
 */
export function watchBay(story: BayStory, asOf: number, rules: EffectiveRules, knownAt?: number): Alert[] {
  return allAlerts(factsOf(storyAsOf(story, asOf, knownAt), asOf, rules))
}

/** All alerts of facts that were already read. One rule stands on the verdict, which itself stands on the others. */
export function allAlerts(facts: BayFacts): Alert[] {
  return alertsBy([...catalogue, coveredEarly], facts)
}
