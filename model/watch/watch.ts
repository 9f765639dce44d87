import { type BayStory, entriesOf, storyAsOf } from '#model/record/story.ts'
import type { EffectiveRules, Limit } from '#model/rules/index.ts'
import type { Alert } from './alert.ts'
import { catalogue } from './catalogue.ts'
import { type BayFacts, factsOf } from './facts/index.ts'
import { type AlertRule, type Raised, rankOf, sourcesOf, worse } from './rule.ts'

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
  return alertsOf(factsOf(storyAsOf(story, asOf, knownAt), asOf, rules))
}

/** The alerts of facts that were already read. */
export function alertsOf(facts: BayFacts): Alert[] {
  const answers = entriesOf(facts.story, 'alert-answered')
  return catalogue
    .flatMap((rule) =>
      joinSameInstant(rule.raise(facts)).map((raised) => alertOf(rule, raised, facts, answers)),
    )
    .sort(
      (a, b) =>
        Number(a.until !== null) - Number(b.until !== null) ||
        rankOf(a.severity) - rankOf(b.severity) ||
        b.since - a.since ||
        (a.rule < b.rule ? -1 : 1),
    )
}

type Answer = ReturnType<typeof entriesOf<'alert-answered'>>[number]

function alertOf(rule: AlertRule, raised: Raised, facts: BayFacts, answers: readonly Answer[]): Alert {
  const id = `${rule.id}:${facts.story.bay.id}:${Math.round(raised.since)}`
  const answer = answers.findLast(
    ({ body, happenedAt }) => body.alert === id && happenedAt >= (raised.gradedAt ?? raised.since),
  )
  const named = rule.limits.map((limit) => facts.rules.limits[limit])
  const broken = limitOf(raised.limit, facts)
  const limit = broken ?? named[0] ?? null
  const sources = sourcesOf(broken === null ? named : [broken, ...named])
  return {
    id,
    rule: rule.id,
    family: rule.family,
    title: rule.title,
    severity: raised.severity,
    nonconformance: raised.nonconformance ?? false,
    since: Math.round(raised.since),
    until: raised.until === null ? null : Math.round(raised.until),
    evidence: raised.evidence,
    whatToDo: raised.whatToDo,
    limit,
    source: [rule.source, sources].filter((text) => text !== undefined && text !== '').join('; '),
    answeredBy:
      answer === undefined
        ? null
        : { entry: answer.id, person: answer.person, answer: answer.body.answer, at: answer.happenedAt },
  }
}

function limitOf(limit: Raised['limit'], { rules }: BayFacts): Limit | null {
  if (limit === undefined) return null
  return typeof limit === 'string' ? rules.limits[limit] : limit
}

/** Two findings of one rule that began at one instant are one alert, because the instant is its name. */
function joinSameInstant(found: readonly Raised[]): Raised[] {
  const joined: Raised[] = []
  for (const raised of found) {
    const same = joined.find(({ since }) => Math.round(since) === Math.round(raised.since))
    if (same === undefined) {
      joined.push({ ...raised })
      continue
    }
    same.severity = worse(same.severity, raised.severity)
    same.nonconformance = same.nonconformance === true || raised.nonconformance === true
    same.until = same.until === null || raised.until === null ? null : Math.max(same.until, raised.until)
    same.gradedAt = Math.max(same.gradedAt ?? same.since, raised.gradedAt ?? raised.since)
    same.evidence = [...same.evidence, ...raised.evidence]
  }
  return joined
}

/** True while nobody has answered it and it still stands. What ended or was answered stays in the history. */
export function isOpen(alert: Alert): boolean {
  return alert.until === null && alert.answeredBy === null
}
