import { keepsLimit, type RuleId } from '#model/rules/index.ts'
import type { Evidence, Severity } from '../alert.ts'
import { airTrace } from '../facts/air.ts'
import { openAt } from '../facts/cover.ts'
import type { EvaporationPoint } from '../facts/evaporation.ts'
import type { BayFacts } from '../facts/index.ts'
import { hourMs } from '../facts/time.ts'
import { lastIndexBy, pointOf, type Trace, type TracePoint, valueAt } from '../facts/trace.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** What a surface loses is no longer news once the sheet lies; readings this far apart are not one spell. */
const spellPauseMs = 12 * hourMs

const grades = [
  ['stop', 'evaporation.stop'],
  ['act', 'evaporation.act'],
  ['watch', 'evaporation.watch'],
] as const satisfies readonly (readonly [Severity, RuleId])[]

function gradeOf(kgPerM2h: number, { rules }: BayFacts) {
  return grades.find(([, id]) => !keepsLimit(kgPerM2h, rules.limits[id])) ?? null
}

const rapidDrying: AlertRule = {
  id: 'A05',
  family: 'drying out',
  title: 'Open screed dries too fast',
  limits: ['evaporation.watch', 'evaporation.act', 'evaporation.stop', 'evaporation.guardHours'],
  source: 'Rate: Uno 1998, ACI Mat. J. 95-M34 (quoted second-hand)',
  raise: (facts) => {
    const { life, rules, asOf } = facts
    if (life.t0 === null) return []
    const until = life.t0 + rules.limits['evaporation.guardHours'].value * hourMs
    const from = life.startedAt ?? life.t0
    const spells: EvaporationPoint[][] = []
    let spell: EvaporationPoint[] | null = null
    for (const point of facts.evaporation) {
      if (point.at < from || point.at >= until || !liesOpen(facts, point.at)) continue
      if (gradeOf(point.kgPerM2h, facts) === null) {
        spell = null
        continue
      }
      if (spell === null || point.at - spell.at(-1)!.at > spellPauseMs) {
        spell = []
        spells.push(spell)
      }
      spell.push(point)
    }
    return spells.map((points): Raised => {
      const worst = points.reduce((a, b) => (b.kgPerM2h > a.kgPerM2h ? b : a))
      const [severity, limit] = gradeOf(worst.kgPerM2h, facts)!
      const graded = points.find(({ kgPerM2h }) => !keepsLimit(kgPerM2h, rules.limits[limit]))!
      return {
        severity,
        limit,
        since: points[0]!.at,
        gradedAt: graded.at,
        until: endOfSpell(facts, points.at(-1)!.at, Math.min(until, asOf), until <= asOf),
        evidence: evaporationEvidence(worst, points.length),
        whatToDo: 'Cover now; close doors and windows, shade it, mist it. Then scratch it for a weak skin.',
      }
    })
  },
}

function liesOpen({ life, open }: BayFacts, at: number): boolean {
  return life.t0 !== null && (at < life.t0 || openAt(open, at) !== null)
}

/** When it stopped: the sheet, the first calm reading or the end of the watched hours; null while none has come. */
function endOfSpell(facts: BayFacts, last: number, watchedUntil: number, over: boolean): number | null {
  const covered = openAt(facts.open, last)?.until ?? null
  const calm =
    facts.evaporation.find(({ at, kgPerM2h }) => at > last && gradeOf(kgPerM2h, facts) === null)?.at ?? null
  const ends = [covered, calm, over ? watchedUntil : null].filter(
    (at) => at !== null && at <= watchedUntil,
  ) as number[]
  return ends.length === 0 ? null : Math.min(...ends)
}

export function evaporationEvidence(point: EvaporationPoint, readings: number): Evidence[] {
  const { inputs, at } = point
  const entry = point.entries[0] ?? null
  return [
    shows(entry, 'Evaporation', point.kgPerM2h, 'kg/(m²·h)', at),
    shows(entry, 'Air', inputs.airC, '°C', at),
    shows(entry, 'Humidity', inputs.rhPercent, '%', at),
    shows(point.entries.at(-1) ?? null, 'Surface', inputs.surfaceC, '°C', at),
    shows(entry, 'Air speed', inputs.windKmh, 'km/h', at),
    ...point.assumed.map((assumption) => shows(null, 'Assumed', assumption, '', at)),
    shows(null, 'Readings over the limit', readings),
  ]
}

/** Groups neighbouring readings that break a limit, and says when each group was over. */
function spellsOf(
  points: readonly TracePoint[],
  broken: (point: TracePoint) => boolean,
): { points: TracePoint[]; calmAt: number | null }[] {
  const spells: { points: TracePoint[]; calmAt: number | null }[] = []
  let lasts = false
  for (const point of points) {
    if (!broken(point)) {
      if (lasts) spells.at(-1)!.calmAt = point.at
      lasts = false
    } else if (lasts) spells.at(-1)!.points.push(point)
    else {
      spells.push({ points: [point], calmAt: null })
      lasts = true
    }
  }
  return spells
}

function earliest(...instants: (number | null)[]): number | null {
  const known = instants.filter((at) => at !== null)
  return known.length === 0 ? null : Math.min(...known)
}

const draught: AlertRule = {
  id: 'A06',
  family: 'drying out',
  title: 'Draught over the young screed',
  limits: ['evaporation.windMs', 'evaporation.draughtGuardHours'],
  raise: (facts) => {
    const { life, rules, asOf, air } = facts
    if (life.t0 === null) return []
    const from = life.startedAt ?? life.t0
    const until = life.t0 + rules.limits['evaporation.draughtGuardHours'].value * hourMs
    const over = until <= asOf ? until : null
    const closedAt =
      facts.protections.spans.find((span) => span.what === 'windows closed' && span.from >= from)?.from ??
      null
    const wind = spellsOf(pointsIn(airTrace(air, 'airSpeedMs'), from, until - 1), ({ at, value }) =>
      liesOpen(facts, at) ? !keepsLimit(value, rules.limits['evaporation.windMs']) : false,
    )
    const openings = spellsOf(
      pointsIn(airTrace(air, 'openings'), from, until - 1),
      ({ value }) => value === 1,
    )
    const whatToDo = 'Close doors and windows, screen the draught, cover the screed.'
    return [
      ...wind.map(({ points, calmAt }): Raised => {
        const worst = points.reduce((a, b) => (b.value > a.value ? b : a))
        return {
          severity: 'act',
          since: points[0]!.at,
          until: earliest(calmAt, openAt(facts.open, points.at(-1)!.at)?.until ?? null, over),
          evidence: [
            shows(worst.entry, 'Air speed', worst.value, 'm/s', worst.at),
            shows(null, 'Readings over the limit', points.length),
          ],
          whatToDo,
        }
      }),
      ...openings.map(
        ({ points, calmAt }): Raised => ({
          severity: 'act',
          since: points[0]!.at,
          until: earliest(calmAt, closedAt !== null && closedAt > points.at(-1)!.at ? closedAt : null, over),
          evidence: points.map(({ entry, at }) => shows(entry, 'Doors and windows', 'open', '', at)),
          whatToDo,
        }),
      ),
    ]
  },
}

const hotSurface: AlertRule = {
  id: 'A07',
  family: 'drying out',
  title: 'Sun or a heater on the young screed',
  limits: ['evaporation.surfaceOverAirK', 'evaporation.draughtGuardHours'],
  raise: (facts) => {
    const { life, rules, asOf, air } = facts
    if (life.t0 === null) return []
    const from = life.startedAt ?? life.t0
    const until = life.t0 + rules.limits['evaporation.draughtGuardHours'].value * hourMs
    const airC = airTrace(air, 'airC')
    const differences = pointsIn(airTrace(air, 'surfaceC'), from, until - 1).flatMap(
      ({ at, value, entry }) => {
        const here = valueAt(airC, at, facts.maxGapMs)
        return here === null ? [] : [{ at, value: value - here, entry, surfaceC: value }]
      },
    )
    const spells = spellsOf(
      differences,
      ({ value }) => !keepsLimit(value, rules.limits['evaporation.surfaceOverAirK']),
    )
    return spells.map(({ points, calmAt }): Raised => {
      const worst = points.reduce((a, b) => (b.value > a.value ? b : a))
      return {
        severity: 'act',
        since: points[0]!.at,
        until: earliest(calmAt, until <= asOf ? until : null),
        evidence: [
          shows(worst.entry, 'Surface above air', worst.value, 'K', worst.at),
          shows(null, 'Readings over the limit', points.length),
        ],
        whatToDo: 'Shade it, or turn the heater away; keep the sheet on.',
      }
    })
  },
}

const hotMix: AlertRule = {
  id: 'A08',
  family: 'drying out',
  title: 'Mix or air too hot to lay in',
  limits: ['mix.tempMostC'],
  raise: (facts) => {
    const { life, rules, batches, loads, air } = facts
    if (life.startedAt === null || life.t0 === null) return []
    const hot = ({ value }: TracePoint) => !keepsLimit(value, rules.limits['mix.tempMostC'])
    const mixes = [
      ...batches.map(({ entry, mixedAt }) => ({ entry: entry.id, at: mixedAt, value: entry.body.mixC })),
      ...loads.map(({ entry }) => ({
        entry: entry.id,
        at: entry.happenedAt,
        value: entry.body.temperatureC,
      })),
    ]
      .flatMap(({ value, ...mix }) => (value === undefined ? [] : [{ ...mix, value }]))
      .filter(hot)
    const whileLaying = pointsIn(airTrace(air, 'airC'), life.startedAt, life.t0).filter(hot)
    const all = [
      ...mixes.map((point) => ({ ...point, what: 'Mix' })),
      ...whileLaying.map((point) => ({ ...point, what: 'Air' })),
    ].sort((a, b) => a.at - b.at)
    if (all.length === 0) return []
    return [
      {
        severity: 'act',
        since: all[0]!.at,
        until: life.t0From === 'finish' ? Math.max(life.t0, all[0]!.at) : null,
        evidence: all.map(({ entry, what, value, at }) => shows(entry, what, value, '°C', at)),
        whatToDo: 'Shade the sand, cool the water, mix smaller batches, lay within a shorter time.',
      },
    ]
  },
}

function pointsIn(trace: Trace, from: number, until: number): TracePoint[] {
  const first = lastIndexBy(trace.at, from - 1) + 1
  const end = lastIndexBy(trace.at, until) + 1
  return Array.from({ length: Math.max(0, end - first) }, (_, i) => pointOf(trace, first + i))
}

export const dryingOut: readonly AlertRule[] = [rapidDrying, draught, hotSurface, hotMix]

/** Used by the curing family: a rate that halves the time allowed until the sheet lies. */
export function harshAt(facts: BayFacts, from: number, until: number): EvaporationPoint | null {
  const within = facts.evaporation.filter(
    ({ at, kgPerM2h }) => at >= from && at <= until && gradeOf(kgPerM2h, facts) !== null,
  )
  return within.reduce<EvaporationPoint | null>(
    (worst, point) => (worst === null || point.kgPerM2h > worst.kgPerM2h ? point : worst),
    null,
  )
}
