import { type BayStory, storyAsOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import type { Alert } from '../alert.ts'
import { isOpen } from '../alerts.ts'
import { type BayFacts, factsOf } from '../facts/index.ts'
import { worse } from '../rule.ts'
import type { TodayLine } from '../today.ts'
import { allAlerts } from '../watch.ts'
import { dueActs } from './due-acts.ts'
import { gapsOf } from './gaps.ts'
import { liveBatches } from './live-batches.ts'
import { trafficPermission } from './permission.ts'
import { pourAdvice } from './pour-advice.ts'

/**
 * Returns what a bay needs next, when and why; null when it needs nothing now.
 *
 * @param asOf epoch milliseconds; the story is cut there.
 * @param rules the limits in force.
 */
export function todayLineOf(story: BayStory, asOf: number, rules: EffectiveRules): TodayLine | null {
  const facts = factsOf(storyAsOf(story, asOf), asOf, rules)
  const alerts = allAlerts(facts).filter((alert) => isOpen(alert) && concernsToday(alert, facts))
  const due = dueActs(facts)
  const batches = liveBatches(facts)
  const pour = pourAdvice(facts, alerts)
  const gaps = gapsOf(facts)
  const traffic = trafficPermission(facts, alerts)
  const headline = headlineOf({ alerts, due, batches, pour, gaps })
  if (headline === null) return null
  const { ageDays } = facts.life
  return {
    bay: story.bay.id,
    bayName: story.bay.body.name,
    floorName: story.floor.body.name,
    zoneName: story.zone.body.name,
    headline,
    severity: alerts.length === 0 ? null : alerts.map(({ severity }) => severity).reduce(worse),
    dayOfLife: ageDays === null ? null : Math.floor(ageDays),
    due,
    alerts,
    traffic,
    batches,
    pour,
    gaps,
  }
}

/** Questions about the honesty of the record are the quality manager’s; under a covering only what must be acted on is left. */
function concernsToday(alert: Alert, { life }: BayFacts): boolean {
  if (alert.rule === 'A48') return false
  return life.coveredAt === null || alert.severity === 'stop' || alert.severity === 'act'
}

/** The one thing to do first: a stop, a batch running out, what is overdue, what must be acted on, then what comes next. */
function headlineOf({
  alerts,
  due,
  batches,
  pour,
  gaps,
}: Pick<TodayLine, 'alerts' | 'due' | 'batches' | 'pour' | 'gaps'>): string | null {
  const stop = alerts.find(({ severity }) => severity === 'stop')
  if (stop !== undefined) return `${stop.title}. ${stop.whatToDo}`
  const batch = batches[0]
  if (batch !== undefined) {
    return batch.minutesLeft > 0
      ? `Batch ${batch.number}: ${batch.minutesLeft} min left.`
      : `Batch ${batch.number} is past its time: discard it.`
  }
  if (pour !== null && pour.verdict !== 'go') return `Pour: ${pour.verdict}. ${pour.because}`
  const overdue = due.find((act) => act.overdue)
  if (overdue !== undefined) return `${overdue.what}. ${overdue.because}`
  const act = alerts.find(({ severity }) => severity === 'act')
  if (act !== undefined) return `${act.title}. ${act.whatToDo}`
  if (pour !== null) return `Pour: go. ${pour.because}`
  const next = due[0]
  if (next !== undefined) return `${next.what}. ${next.because}`
  const watched = alerts[0]
  if (watched !== undefined) return `${watched.title}. ${watched.whatToDo}`
  return gaps[0] ?? null
}
