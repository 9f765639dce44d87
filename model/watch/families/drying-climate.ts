import { dewPointMargin } from '#model/air/index.ts'
import { protections as protectionWords } from '#model/record/words.ts'
import { keepsLimit } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import { airTrace } from '../facts/air.ts'
import { openAt } from '../facts/cover.ts'
import type { BayFacts } from '../facts/index.ts'
import { dryingByForce, type ProtectionSpan } from '../facts/protection.ts'
import { dayMs, rounded } from '../facts/time.ts'
import { lastIndexBy } from '../facts/trace.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

const hotAir = ['electric heater', 'flued heater', 'unflued heater'] as const

const forcedDrying: AlertRule = {
  id: 'A35',
  family: 'heating',
  title: 'Dried by force too early',
  limits: [
    'drying.forcedStopDays',
    'drying.forcedWatchDays',
    'drying.forcedRhLeast',
    'drying.forcedAirMostC',
  ],
  raise: (facts) => {
    const { life, rules, asOf, open, curing } = facts
    if (life.t0 === null || curing === null) return []
    const t0 = life.t0
    const curedAt = endOfCuring(facts)
    const stopUntil =
      (curedAt ?? Number.POSITIVE_INFINITY) + rules.limits['drying.forcedStopDays'].value * dayMs
    const watchUntil = Math.max(t0 + rules.limits['drying.forcedWatchDays'].value * dayMs, 0)
    return facts.protections.spans.flatMap((span): Raised[] => {
      if (!dryingByForce.includes(span.what)) return []
      const from = Math.max(span.from, t0)
      const until = span.until ?? asOf
      if (until <= from) return []
      // Heat under the sheet keeps frost out. It dries by force only what lies open in hot air.
      const heater = hotAir.some((what) => what === span.what)
      const harsh = harshClimate(facts, from, Math.min(until, Math.max(watchUntil, from)))
      const dries = !heater || (harsh.hot !== null && openAt(open, harsh.hot.at) !== null)
      if (dries && from < stopUntil) {
        return [
          raisedBy(
            span,
            'stop',
            from,
            until >= stopUntil && stopUntil <= asOf ? stopUntil : span.until,
            harsh.evidence,
          ),
        ]
      }
      if (from < watchUntil && harsh.evidence.length > 0) {
        return [
          raisedBy(
            span,
            'watch',
            from,
            span.until ?? (watchUntil <= asOf ? watchUntil : null),
            harsh.evidence,
          ),
        ]
      }
      return []
    })
  },
}

function raisedBy(
  span: ProtectionSpan,
  severity: 'stop' | 'watch',
  since: number,
  until: number | null,
  climate: Evidence[],
): Raised {
  return {
    severity,
    limit: severity === 'stop' ? 'drying.forcedStopDays' : 'drying.forcedWatchDays',
    since,
    until,
    evidence: [shows(span.on.id, protectionWords[span.what], 'on', '', span.from), ...climate],
    whatToDo:
      severity === 'stop'
        ? 'Turn it off; ventilate gently.'
        : 'Turn it down: gentle air dries without curling.',
  }
}

/** The driest and the hottest air while it ran, where they broke their limits. */
function harshClimate({ air, rules }: BayFacts, from: number, until: number) {
  const extreme = (quantity: 'airC' | 'rhPercent', sign: 1 | -1) => {
    const trace = airTrace(air, quantity)
    let best: { at: number; value: number; entry: string } | null = null
    for (let i = lastIndexBy(trace.at, from - 1) + 1; i < trace.at.length && trace.at[i]! <= until; i++) {
      const value = trace.value[i]!
      if (best === null || sign * (value - best.value) > 0) {
        best = { at: trace.at[i]!, value, entry: trace.entries[trace.from[i]!]! }
      }
    }
    return best
  }
  const hottest = extreme('airC', 1)
  const driest = extreme('rhPercent', -1)
  const hot =
    hottest !== null && !keepsLimit(hottest.value, rules.limits['drying.forcedAirMostC']) ? hottest : null
  const dry =
    driest !== null && !keepsLimit(driest.value, rules.limits['drying.forcedRhLeast']) ? driest : null
  return {
    hot,
    evidence: [
      ...(hot === null ? [] : [shows(hot.entry, 'Hottest air', hot.value, '°C', hot.at)]),
      ...(dry === null ? [] : [shows(dry.entry, 'Driest air', dry.value, '% RH', dry.at)]),
    ],
  }
}

/** The sheet taken off for good; for calcium sulfate, which is not covered, the finish. */
function endOfCuring({ life, open }: BayFacts): number | null {
  if (!life.cementBound) return life.t0
  const last = open.at(-1)
  return last !== undefined && last.until === null && last.off !== null ? last.from : null
}

/** Day 0, 1 and 2. */
const fumeDays = 3

const fumes: AlertRule = {
  id: 'A36',
  family: 'heating',
  title: 'Unflued burner over fresh screed',
  limits: [],
  source: 'British learned-society guidance on screeds (quoted second-hand)',
  raise: ({ life, protections }) => {
    if (life.startedAt === null || life.t0 === null) return []
    const end = life.t0 + fumeDays * dayMs
    return protections.spans
      .filter(
        ({ what, from, until }) =>
          what === 'unflued heater' && from < end && (until ?? Number.POSITIVE_INFINITY) > life.startedAt!,
      )
      .map(
        (span): Raised => ({
          severity: 'stop',
          since: Math.max(span.from, life.startedAt!),
          until: span.until,
          evidence: [shows(span.on.id, protectionWords[span.what], 'on', '', span.from)],
          whatToDo:
            'Take it out and air the space: carbon monoxide kills, and the fumes make a weak carbonated skin. Heat flued or electric.',
        }),
      )
  },
}

const condensation: AlertRule = {
  id: 'A37',
  family: 'heating',
  title: 'Condensation on the screed',
  limits: ['drying.condensationK'],
  source: 'Dew point: Magnus formula (from memory)',
  raise: (facts) => {
    const { air, life, rules, open, asOf } = facts
    if (life.t0 === null) return []
    const until = life.coveredAt ?? asOf
    const limit = rules.limits['drying.condensationK']
    const spells: {
      from: number
      calmAt: number | null
      worst: Evidence
      worstK: number
      readings: number
    }[] = []
    let lasts = false
    for (let i = lastIndexBy(air.at, life.t0 - 1) + 1; i < air.at.length && air.at[i]! <= until; i++) {
      const [at, airC, rhPercent, surfaceC] = [air.at[i]!, air.airC[i]!, air.rhPercent[i]!, air.surfaceC[i]!]
      if (Number.isNaN(airC + rhPercent + surfaceC) || rhPercent < 1 || openAt(open, at) === null) continue
      const marginK = dewPointMargin({ airC, rhPercent, surfaceC })
      if (keepsLimit(marginK, limit)) {
        if (lasts) spells.at(-1)!.calmAt = at
        lasts = false
        continue
      }
      const worst = shows(air.entries[air.from[i]!]!, 'Surface above the dew point', marginK, 'K', at)
      const last = spells.at(-1)
      if (lasts && last !== undefined) {
        last.readings++
        if (marginK < last.worstK) Object.assign(last, { worst, worstK: marginK })
      } else spells.push({ from: at, calmAt: null, worst, worstK: marginK, readings: 1 })
      lasts = true
    }
    return spells.map(
      ({ from, calmAt, worst, readings }): Raised => ({
        severity: 'watch',
        since: from,
        until: calmAt ?? life.coveredAt,
        evidence: [worst, shows(null, 'Readings too near', rounded(readings, 0))],
        whatToDo: 'Heat gently or ventilate: it wets the screed again.',
      }),
    )
  },
}

export const dryingClimate: readonly AlertRule[] = [forcedDrying, fumes, condensation]
