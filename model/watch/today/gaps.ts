import { entriesOf } from '#model/record/story.ts'
import { keepsLimit } from '#model/rules/index.ts'
import { airTrace } from '../facts/air.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs, hourMs, siteDayStart } from '../facts/time.ts'
import { lowestIn } from '../facts/trace.ts'

/** Returns what is not yet written down, in words. */
export function gapsOf(facts: BayFacts): string[] {
  const { life, story, asOf, rules } = facts
  if (life.t0 === null || life.startedAt === null || life.coveredAt !== null) return []
  const gaps: string[] = []
  const ageDays = life.ageDays ?? 0
  const today = siteDayStart(asOf, story.timeZone)
  const room = airTrace(facts.air, 'airC')

  if (life.t0From !== 'finish' && asOf - life.t0 > 2 * hourMs)
    gaps.push('The finish of the bay is not recorded.')
  if (ageDays <= rules.limits['record.youngDays'].value && lowestIn(room, today, asOf) === null) {
    gaps.push('No air reading today.')
  }
  if (ageDays <= rules.limits['frost.guardDays'].value) {
    const measured = lowestIn(facts.screed.coldest, asOf - dayMs, asOf) !== null
    const air = [lowestIn(room, asOf - dayMs, asOf), lowestIn(facts.outside, asOf - dayMs, asOf)]
    const cold = air.some((read) => read !== null && !keepsLimit(read.value, rules.limits['frost.screedC']))
    if (!measured && cold) gaps.push('It is cold, and nobody measures in the screed.')
    if (!measured && air.every((read) => read === null))
      gaps.push('No temperature of the last day, in air or screed.')
  }
  if (ageDays <= rules.limits['record.youngDays'].value + 1) {
    if (facts.batches.length + entriesOf(story, 'material-delivered').length === 0)
      gaps.push('No batch or delivery recorded.')
    if (entriesOf(story, 'lift-laid').length === 0) gaps.push('No lift recorded.')
    const unplaced = facts.batches.filter(
      ({ entry: { body } }) => body.areaNote === undefined && body.fromX === undefined,
    )
    if (unplaced.length > 0)
      gaps.push(`${unplaced.length} of ${facts.batches.length} batches do not say where they were laid.`)
    const spoken = facts.traffic.length + entriesOf(story, 'no-traffic-confirmed').length
    if (ageDays >= 1 && spoken === 0) gaps.push('Nobody wrote whether the bay was walked on.')
  }
  if (facts.thickness.length === 0) gaps.push('No thickness measured.')
  return gaps
}
