import { trafficGate } from '#model/strength/index.ts'
import type { Alert } from '../alert.ts'
import { isOpen } from '../alerts.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs } from '../facts/time.ts'
import { lastIndexBy } from '../facts/trace.ts'
import type { TrafficPermission } from '../today.ts'

const levels = [
  ['foot', 'foot'],
  ['boards', 'boards'],
  ['free', 'point'],
] as const
type Level = (typeof levels)[number][0]

/** Nobody needs hourly temperatures of a bay older than this to say who may walk on it. */
const watchedDays = 45

/** Returns who may go on the bay now, and the next freedom; null before the bay is finished. */
export function trafficPermission(facts: BayFacts, alerts: readonly Alert[]): TrafficPermission | null {
  const { life, rules, asOf, screed } = facts
  if (life.t0 === null || life.coveredAt !== null) return null
  const frozen = alerts.find((alert) => alert.rule === 'A03' && isOpen(alert))
  if (frozen !== undefined)
    return { now: 'nothing', next: null, because: `${frozen.title}: nobody on it until it is tested.` }
  const { at, value } = screed.coldest
  const end = lastIndexBy(at, life.t0 + watchedDays * dayMs) + 1
  const series = Array.from({ length: end }, (_, i) => ({ at: at[i]!, tempC: value[i]! }))
  const gate = trafficGate({ series, laidAt: life.t0, rules, screed: facts.story.bay.body.screed })
  let now: TrafficPermission['now'] = 'nothing'
  for (const [level, kind] of levels) {
    const answer = gate[kind]
    if (answer.from !== null && answer.from <= asOf) {
      now = level
      continue
    }
    const doubt = answer.from === null && answer.state === 'not known' && asOf >= answer.daysOverAt
    if (doubt && now === 'nothing') now = 'not known'
    const because =
      answer.from === null
        ? `${wordsOf[level]}: ${answer.because}`
        : `${wordsOf[level]} from day ${answer.limits.days.value} on.`
    return { now, next: { what: level, at: answer.from }, because }
  }
  return { now, next: null, because: gate.point.because }
}

const wordsOf: Readonly<Record<Level, string>> = { foot: 'Walking', boards: 'Boards', free: 'Free use' }
