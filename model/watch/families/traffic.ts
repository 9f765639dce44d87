import { entriesOf } from '#model/record/story.ts'
import { trafficClasses } from '#model/record/words.ts'
import { keepsLimit } from '#model/rules/index.ts'
import type { Evidence, Severity } from '../alert.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs, rounded } from '../facts/time.ts'
import type { TrafficEvent } from '../facts/traffic.ts'
import { type AlertRule, type Raised, shows, worse } from '../rule.ts'

/** Whether something came before days and maturity of its rule were both reached. */
type TooEarly = 'yes' | 'no' | 'not known'

function tooEarly(
  facts: BayFacts,
  { at, ageDays }: TrafficEvent,
  days: 'traffic.footDays' | 'traffic.wheelsDays',
  maturity: 'traffic.footMaturityCh' | 'traffic.wheelsMaturityCh',
): TooEarly {
  if (ageDays === null) return 'no'
  if (!keepsLimit(ageDays, facts.rules.limits[days])) return 'yes'
  if (!facts.life.cementBound) return 'no'
  const { provenCh, atMostCh } = facts.screed.maturityAt(at)
  const limit = facts.rules.limits[maturity]
  if (keepsLimit(provenCh, limit)) return 'no'
  return keepsLimit(atMostCh, limit) ? 'not known' : 'yes'
}

function trafficEvidence({ screed }: BayFacts, event: TrafficEvent): Evidence[] {
  const { id, body } = event.entry
  const { provenCh, unknownHours } = screed.maturityAt(event.at)
  const mass = body.massKg === undefined ? '' : `, ${body.massKg} kg`
  const place = body.x === undefined || body.y === undefined ? '' : `, at ${body.x} / ${body.y} m`
  return [
    shows(
      id,
      `${trafficClasses[body.traffic]}${mass}${place}`,
      body.boards ? 'on boards' : 'without boards',
      '',
      event.at,
    ),
    shows(id, 'Age then', event.ageDays ?? 0, 'days', event.at),
    shows(null, 'Maturity then', rounded(provenCh, 0), '°C·h', event.at),
    ...(unknownHours > 0 ? [shows(null, 'Hours nobody measured', unknownHours, 'h', event.at)] : []),
  ]
}

/** One alert for all of one kind: who went over the bay early is one thing to answer. */
function together(
  facts: BayFacts,
  events: readonly { event: TrafficEvent; severity: Severity }[],
  rest: Pick<Raised, 'whatToDo'> & Partial<Raised>,
): Raised[] {
  const first = events[0]
  if (first === undefined) return []
  const severity = events.map((each) => each.severity).reduce(worse)
  return [
    {
      ...rest,
      severity,
      nonconformance: rest.nonconformance === true && severity !== 'not proven',
      since: first.event.at,
      // Each further breach asks for its own answer.
      gradedAt: events.at(-1)!.event.at,
      until: null,
      evidence: events.flatMap(({ event }) => trafficEvidence(facts, event)),
    },
  ]
}

const earlyFoot: AlertRule = {
  id: 'A28',
  family: 'traffic',
  title: 'Walked on too early',
  limits: ['traffic.footDays', 'traffic.footMaturityCh'],
  raise: (facts) => {
    const early = facts.traffic
      .filter(({ kind }) => kind === 'foot')
      .map((event) => ({
        event,
        early: tooEarly(facts, event, 'traffic.footDays', 'traffic.footMaturityCh'),
      }))
      .filter(({ early }) => early !== 'no')
      .map(({ event, early }) => ({
        event,
        severity: early === 'yes' ? ('act' as const) : ('not proven' as const),
      }))
    return together(facts, early, {
      whatToDo: 'Lay boards, look for prints and broken edges, keep the barrier up.',
    })
  },
}

const earlyLoad: AlertRule = {
  id: 'A29',
  family: 'traffic',
  title: 'Point or wheel load too early',
  limits: ['traffic.wheelsDays', 'traffic.wheelsMaturityCh', 'traffic.pointDays'],
  raise: (facts) => {
    const loads = facts.traffic
      .filter(({ kind }) => kind === 'point or wheel')
      .flatMap((event): { event: TrafficEvent; severity: Severity }[] => {
        const early = tooEarly(facts, event, 'traffic.wheelsDays', 'traffic.wheelsMaturityCh')
        const bare =
          event.ageDays !== null &&
          !event.entry.body.boards &&
          !keepsLimit(event.ageDays, facts.rules.limits['traffic.pointDays'])
        if (early === 'yes' || bare) return [{ event, severity: 'act' }]
        return early === 'not known' ? [{ event, severity: 'not proven' }] : []
      })
    return together(facts, loads, {
      nonconformance: true,
      whatToDo:
        'Circle the place, photograph it, test there on day 14. Lay boards before anything else rolls or stands on it.',
    })
  },
}

const unprotected: AlertRule = {
  id: 'A30',
  family: 'traffic',
  title: 'Routes not boarded',
  limits: [],
  source: 'Trade practice (common practice)',
  raise: (facts) => {
    const { life, curing, asOf, story, protections } = facts
    const curedAt = endOfCuring(facts)
    if (life.t0 === null || curing === null || curedAt === null) return []
    const until = life.coveredAt ?? asOf
    const guarded = protections.spans
      .filter(({ what }) => what === 'boards' || what === 'barrier')
      .sort((a, b) => a.from - b.from)
    const confirmed = entriesOf(story, 'no-traffic-confirmed').filter(
      ({ happenedAt }) => happenedAt >= curedAt,
    )
    return gaps(curedAt, until, guarded).flatMap(({ from, to, closed }): Raised[] => {
      if (to - from < dayMs) return []
      const seen = facts.traffic.filter(({ at }) => at >= from && at <= to)
      if (seen.length === 0 && confirmed.length > 0) return []
      const end = closed || life.coveredAt !== null ? to : null
      return [
        {
          severity: seen.length > 0 ? 'watch' : 'not proven',
          since: from,
          until: end,
          evidence: [
            shows(null, 'Boards or barrier', 'none on', '', from),
            ...(seen.length === 0
              ? [shows(null, 'Traffic', 'nobody wrote whether anyone passes')]
              : seen.map(({ entry, at }) =>
                  shows(entry.id, trafficClasses[entry.body.traffic], 'seen', '', at),
                )),
          ],
          whatToDo:
            'Board the routes until the covering is laid, or keep the bay closed and write down who keeps the key.',
        },
      ]
    })
  },
}

/** The last sheet off; for a screed that is not cured, the days of the rule. */
function endOfCuring({ life, open, rules }: BayFacts): number | null {
  if (life.t0 === null) return null
  if (!life.cementBound) return life.t0 + rules.limits['traffic.footDays'].value * dayMs
  const last = open.at(-1)
  return last !== undefined && last.until === null && last.off !== null ? last.from : null
}

function gaps(from: number, until: number, spans: readonly { from: number; until: number | null }[]) {
  const found: { from: number; to: number; closed: boolean }[] = []
  let at = from
  for (const span of spans) {
    const end = span.until ?? until
    if (end <= at) continue
    if (span.from > at) found.push({ from: at, to: Math.min(span.from, until), closed: true })
    at = end
    if (at >= until) break
  }
  if (at < until) found.push({ from: at, to: until, closed: false })
  return found
}

export const traffic: readonly AlertRule[] = [earlyFoot, earlyLoad, unprotected]
