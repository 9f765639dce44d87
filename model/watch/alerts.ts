import { InputError } from '#model/errors.ts'
import { entriesOf } from '#model/record/story.ts'
import type { Limit } from '#model/rules/index.ts'
import type { Alert } from './alert.ts'
import { catalogue } from './catalogue.ts'
import type { BayFacts } from './facts/index.ts'
import { type AlertRule, type Raised, rankOf, shows, sourcesOf, worse } from './rule.ts'

/** The alerts of facts that were already read, by the catalogue. */
export function alertsOf(facts: BayFacts): Alert[] {
  return alertsBy(catalogue, facts)
}

/** The alerts of some rules: those that stand first, worst first. */
export function alertsBy(rules: readonly AlertRule[], facts: BayFacts): Alert[] {
  const answers = entriesOf(facts.story, 'alert-answered')
  return inOrder(
    rules.flatMap((rule) =>
      joinSameInstant(raisedBy(rule, facts)).map((raised) => alertOf(rule, raised, facts, answers)),
    ),
  )
}

/** Those that stand before those that ended, then the worst first, then the newest. */
export function inOrder(alerts: readonly Alert[]): Alert[] {
  return alerts.toSorted(
    (a, b) =>
      Number(a.until !== null) - Number(b.until !== null) ||
      rankOf(a.severity) - rankOf(b.severity) ||
      b.since - a.since ||
      (a.rule < b.rule ? -1 : 1),
  )
}

/** What a rule finds. A fact it cannot use is a finding too: one bad number must not silence the other rules. */
function raisedBy(rule: AlertRule, facts: BayFacts): Raised[] {
  try {
    return rule.raise(facts)
  } catch (cause) {
    if (!(cause instanceof InputError)) throw cause
    const since = facts.life.t0 ?? facts.life.startedAt ?? facts.life.plannedFor ?? facts.asOf
    return [
      {
        severity: 'not proven',
        since: Math.min(since, facts.asOf),
        until: null,
        evidence: [shows(null, 'Could not be judged', cause.message)],
        whatToDo: 'Correct the entry that this names; until then nobody knows.',
      },
    ]
  }
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
