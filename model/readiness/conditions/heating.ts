import { checkHeating, type HeatingPlanId, heatingPlans } from '#model/checks/index.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { hoursBetween, rounded } from '#model/watch/facts/time.ts'
import type { Condition } from '../verdict.ts'
import { findingText, met, notMet, unknown } from './condition.ts'

/** The functional heating of EN 1264-4 asks for the highest design temperature; below this a run has not left its start. */
const leastDesignC = 35

/** Heated for the first time by a plan, as the log shows. Null for a floor without heating. */
export function heatingRun(facts: BayFacts): Condition | null {
  const name = 'Heating run up and down'
  const { story, rules, life, heating } = facts
  if (!story.zone.body.heated) return null
  const { screed, designThicknessMm } = story.bay.body
  if (heating.length === 0) return unknown(name, 'There is no heating log.')
  const entries = [...new Set(heating.map(({ entry }) => entry))]
  const plans = (Object.keys(heatingPlans) as HeatingPlanId[]).filter((id) =>
    heatingPlans[id].screeds.some((each) => each === screed),
  )
  if (plans.length === 0)
    return unknown(name, 'Only the maker’s plan tells how this screed is heated.', entries)
  const log = heating.map(({ at, state, flowC }) => ({ at, flowC: state === 'off' ? null : flowC }))
  const run = (plan: HeatingPlanId, designMaxC?: number) =>
    checkHeating(log, { plan, screed, laidAt: life.t0, thicknessMm: designThicknessMm, designMaxC, rules })
  const full = plans.find((plan) => run(plan).verdict === 'pass')
  if (full !== undefined) return met(name, `${heatingPlans[full].name}: every step is in the log.`, entries)

  const highest = Math.max(...log.map(({ flowC }) => flowC ?? 0))
  const own = highest >= leastDesignC ? Math.min(highest, rules.limits['heat.maxC'].value) : null
  const kept = own === null ? undefined : plans.find((plan) => run(plan, own).verdict === 'pass')
  if (kept !== undefined) {
    const release = entriesOf(story, 'hold-point-released').findLast(
      ({ body }) => body.point === 'heating run',
    )
    const shown = `${heatingPlans[kept].name}, with ${rounded(own!, 0)} °C as the highest design temperature`
    return release?.body.decision === 'released'
      ? met(name, `${shown}; released: “${release.body.saw}”.`, [...entries, release.id])
      : unknown(name, `${shown}; nobody confirmed that temperature at the hold point.`, entries)
  }
  const first = run(plans[0]!)
  return first.verdict === 'fail'
    ? notMet(name, `By ${heatingPlans[plans[0]!].name}: ${findingText(first)}.`, entries)
    : unknown(name, `By ${heatingPlans[plans[0]!].name}: ${findingText(first)}.`, entries)
}

/** Off for as long as a moisture test needs. Null for a floor without heating. */
export function heatingOff(facts: BayFacts): Condition | null {
  const name = 'Heating off'
  const { story, rules, heating, asOf } = facts
  if (!story.zone.body.heated) return null
  const last = heating.at(-1)
  if (last === undefined) return unknown(name, 'There is no heating log.')
  if (last.state === 'running')
    return notMet(name, `The log last shows it running at ${last.flowC ?? '?'} °C.`, [last.entry])
  const lastRunning = heating.findLastIndex(({ state }) => state === 'running')
  const off = heating[lastRunning + 1] ?? last
  const hours = hoursBetween(off.at, asOf)
  const limit = rules.limits['test.heatingOffHours']
  const because = `Off for ${Math.round(hours)} h (${limitText(limit)}).`
  return keepsLimit(hours, limit) ? met(name, because, [off.entry]) : notMet(name, because, [off.entry])
}
