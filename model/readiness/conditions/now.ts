import { checkSurfaceClimate } from '#model/checks/index.ts'
import { entriesOf } from '#model/record/story.ts'
import { type Covering, symptoms } from '#model/record/words.ts'
import type { Alert } from '#model/watch/alert.ts'
import { isOpen } from '#model/watch/alerts.ts'
import { airTrace, nearestReading } from '#model/watch/facts/air.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { hourMs, minuteMs } from '#model/watch/facts/time.ts'
import type { Condition } from '../verdict.ts'
import { findingText, met, notMet, unknown } from './condition.ts'

/** Air and surface as last read, not older than a day. */
export function surfaceClimate(facts: BayFacts, covering: Covering): Condition {
  const name = 'Surface climate now'
  const { air, rules, asOf } = facts
  const hours = rules.limits['record.ambientGapHours'].value
  const last = nearestReading(airTrace(air, 'airC'), asOf, hours * hourMs)
  if (last === null) return unknown(name, `The air was not read in the last ${hours} h.`)
  const near = (quantity: 'rhPercent' | 'surfaceC') =>
    nearestReading(airTrace(air, quantity), last.at, 30 * minuteMs)
  const rh = near('rhPercent')
  const surface = near('surfaceC')
  const result = checkSurfaceClimate({
    airC: last.value,
    rhPercent: rh === null ? null : Math.max(0.1, rh.value),
    surfaceC: surface?.value ?? null,
    covering,
    ruleSet: rules,
  })
  const entries = [...new Set([last.entry, rh?.entry, surface?.entry])].filter((id) => id !== undefined)
  const because = `${findingText(result)}.`
  if (result.verdict === 'pass') return met(name, because, entries)
  return result.verdict === 'fail' ? notMet(name, because, entries) : unknown(name, because, entries)
}

/** Nobody may cover a bay over an alert that says stop and that nobody has answered. */
export function noOpenStop(alerts: readonly Alert[]): Condition {
  const name = 'No open stop alert'
  const stops = alerts.filter((alert) => alert.severity === 'stop' && alert.until === null)
  const open = stops.filter(isOpen)
  const shown = evidenceOf(stops)
  if (open.length > 0) return notMet(name, `${open.map(({ title }) => title).join('; ')}.`, shown)
  const answered = stops.map(({ title, answeredBy }) => `${title}: “${answeredBy?.answer}”`)
  return met(name, answered.length === 0 ? 'None stands.' : `Answered: ${answered.join('; ')}.`, shown)
}

/** The entries that fired these alerts, and those that answered them. */
function evidenceOf(alerts: readonly Alert[]): string[] {
  const entries = alerts.flatMap(({ evidence, answeredBy }) => [
    ...evidence.map(({ entry }) => entry),
    answeredBy?.entry ?? null,
  ])
  return [...new Set(entries.filter((entry) => entry !== null))]
}

/** Raised by a person and not closed, or found by the watch and not answered. */
export function noOpenNonconformance({ story }: BayFacts, alerts: readonly Alert[]): Condition {
  const name = 'No open non-conformance'
  const closed = new Set(entriesOf(story, 'nonconformance-closed').map(({ body }) => String(body.raised)))
  const raised = entriesOf(story, 'nonconformance-raised').filter(({ id }) => !closed.has(id))
  const found = alerts.filter((alert) => alert.nonconformance && isOpen(alert))
  if (raised.length + found.length === 0) return met(name, 'None is open.')
  const texts = [...raised.map(({ body }) => body.what), ...found.map(({ title }) => title)]
  return notMet(name, `${texts.join('; ')}.`, [...raised.map(({ id }) => id), ...evidenceOf(found)])
}

export function noOpenDefect({ story }: BayFacts): Condition {
  const name = 'No open defect'
  const closed = new Set(entriesOf(story, 'defect-closed').map(({ body }) => String(body.defect)))
  const open = entriesOf(story, 'defect-found').filter(({ id }) => !closed.has(id))
  if (open.length === 0) return met(name, 'None is open.')
  const words = open.map(({ body }) => symptomText(body.symptom))
  return notMet(
    name,
    `${words.join('; ')}.`,
    open.map(({ id }) => id),
  )
}

function symptomText(code: string): string {
  const known: Readonly<Record<string, string>> = symptoms
  return known[code] ?? code
}
