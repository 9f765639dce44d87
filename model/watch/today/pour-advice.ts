import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { Alert } from '../alert.ts'
import { isOpen } from '../alerts.ts'
import { forecastFor } from '../facts/forecast.ts'
import type { BayFacts } from '../facts/index.ts'
import { againstFrost, protectedBy } from '../facts/protection.ts'
import { dayMs } from '../facts/time.ts'
import type { PourAdvice } from '../today.ts'

/** How far ahead a pour is talked about. */
const aheadMs = 3 * dayMs

/**
 * Returns whether a planned bay can be laid, with the one reason that decides. What nobody knows makes it "not known",
 * never "go".
 */
export function pourAdvice(facts: BayFacts, alerts: readonly Alert[]): PourAdvice | null {
  const { life, rules, asOf, story, protections } = facts
  const { plannedFor } = life
  if (plannedFor === null || life.startedAt !== null || plannedFor > asOf + aheadMs) return null
  const stop = alerts.find((alert) => alert.severity === 'stop' && isOpen(alert))
  if (stop !== undefined) {
    const cause = stop.evidence[0]
    const shown = cause === undefined ? '' : ` (${cause.what.toLowerCase()} ${cause.value} ${cause.unit})`
    return { verdict: 'no-go', because: `${stop.title}${shown.trimEnd()}.` }
  }
  const survey = story.entries.findLast((entry) => entry.kind === 'base-surveyed' && !entry.withdrawn)
  if (survey === undefined) return { verdict: 'not known', because: 'The base was not surveyed.' }
  if (latestBaseC(facts) === null)
    return { verdict: 'not known', because: 'The temperature of the base was not read.' }

  const from = Math.max(plannedFor, asOf)
  const forecast = forecastFor(story, from, from + rules.limits['frost.guardDays'].value * dayMs)
  if (forecast.coldest === null || forecast.unknownHours > 0) {
    return {
      verdict: 'not known',
      because: `No forecast for ${forecast.unknownHours} h of the first ${rules.limits['frost.guardDays'].value} days.`,
    }
  }
  const frost = rules.limits['frost.forecastC']
  if (!keepsLimit(forecast.coldest.tempC, frost)) {
    const guards = [
      ...protections.planned.map(({ body }) => body.what).filter((what) => againstFrost.includes(what)),
      ...protectedBy(protections, againstFrost, asOf).map(({ what }) => what),
    ]
    const cold = `${forecast.coldest.tempC} °C is forecast (limit ${limitText(frost)})`
    return guards.length === 0
      ? { verdict: 'no-go', because: `${cold} and no heat or blanket is planned.` }
      : { verdict: 'go with protection', because: `${cold}; planned: ${[...new Set(guards)].join(', ')}.` }
  }
  const acted = alerts.find((alert) => alert.severity === 'act' && isOpen(alert))
  if (acted !== undefined)
    return { verdict: 'go with protection', because: `${acted.title}. ${acted.whatToDo}` }
  const hot = rules.limits['mix.tempMostC']
  if (forecast.hottest !== null && !keepsLimit(forecast.hottest.tempC, hot)) {
    return {
      verdict: 'go with protection',
      because: `${forecast.hottest.tempC} °C is forecast (limit ${limitText(hot)}): shade, cool water, small batches.`,
    }
  }
  return {
    verdict: 'go',
    because: `Base and forecast keep ${limitText(frost)}; lowest ${forecast.coldest.tempC} °C.`,
  }
}

function latestBaseC({ story }: BayFacts): number | null {
  for (const entry of story.entries.toReversed()) {
    if (entry.withdrawn || (entry.kind !== 'base-surveyed' && entry.kind !== 'air-read')) continue
    if (entry.body.baseC !== undefined) return entry.body.baseC
  }
  return null
}
