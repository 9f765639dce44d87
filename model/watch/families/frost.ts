import { keepsLimit } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import { airTrace } from '../facts/air.ts'
import { forecastFor } from '../facts/forecast.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid } from '../facts/pour.ts'
import { againstFrost, protectedBy } from '../facts/protection.ts'
import { dayMs, hourMs, hoursBetween, rounded } from '../facts/time.ts'
import { type Breach, breachesOf, joinColdSpells, valueAt } from '../facts/trace.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** Spells of one night belong together. */
const nightMs = 12 * hourMs
/** A bay that froze later than this without a known maturity is left to its tests. Our judgement. */
const maturityDoubtDays = 28

const guardMs = ({ rules }: BayFacts) => rules.limits['frost.guardDays'].value * dayMs

/** Cold to come or cold already in base and mix: before the pour, and while the young screed has still to be guarded. */
const coldPour: AlertRule = {
  id: 'A01',
  family: 'frost',
  title: 'Too cold to lay, or frost to come',
  limits: ['frost.forecastC', 'mix.tempLeastC'],
  raise: (facts) => {
    const { life, rules, asOf, story } = facts
    const layAt = life.t0 ?? life.startedAt ?? life.plannedFor
    if (layAt === null || life.coveredAt !== null) return []
    const laid = isLaid(facts)
    const from = Math.max(layAt, asOf)
    const guardedUntil = (laid ? layAt : from) + guardMs(facts)
    const found: { since: number; evidence: Evidence[] }[] = []
    const { coldest } = forecastFor(story, from, guardedUntil)
    if (coldest !== null && !keepsLimit(coldest.tempC, rules.limits['frost.forecastC'])) {
      const { entry } = coldest
      const stillAhead = !laid || asOf < guardedUntil
      if (stillAhead) {
        found.push({
          since: entry.happenedAt,
          evidence: [
            shows(entry.id, 'Coldest air forecast', coldest.tempC, '°C', Date.parse(entry.body.from)),
          ],
        })
      }
    }
    found.push(...coldBase(facts), ...coldMix(facts))
    const first = found.sort((a, b) => a.since - b.since)[0]
    if (first === undefined) return []
    const { planned } = facts.protections
    const guards = [
      ...planned.filter(({ body }) => againstFrost.includes(body.what)),
      ...protectedBy(facts.protections, againstFrost, asOf).map(({ on }) => on),
    ]
    const severity = guards.length === 0 ? (laid ? 'act' : 'stop') : laid ? 'watch' : 'act'
    return [
      {
        severity,
        since: first.since,
        until: laid && asOf >= guardedUntil ? guardedUntil : null,
        evidence: [
          ...found.flatMap(({ evidence }) => evidence),
          ...(guards.length === 0
            ? [shows(null, 'Protection against frost', 'none planned')]
            : guards.map(({ id, body, happenedAt }) =>
                shows(id, 'Protection against frost', body.what, '', happenedAt),
              )),
        ],
        whatToDo: laid
          ? 'Close the space, heat it without fumes (flued or electric), lay insulating blankets and a logger in the screed.'
          : 'Postpone, or close the space, heat it without fumes (flued or electric), and have blankets and a logger ready.',
      },
    ]
  },
}

function coldBase({ story, rules, life }: BayFacts) {
  const readings = story.entries.flatMap((entry) => {
    if (entry.withdrawn || (life.t0 !== null && entry.happenedAt > life.t0)) return []
    if (entry.kind !== 'base-surveyed' && entry.kind !== 'air-read') return []
    return entry.body.baseC === undefined
      ? []
      : [{ id: entry.id, at: entry.happenedAt, baseC: entry.body.baseC }]
  })
  const last = readings.at(-1)
  if (last === undefined || keepsLimit(last.baseC, rules.limits['frost.screedC'])) return []
  return [{ since: last.at, evidence: [shows(last.id, 'Base', last.baseC, '°C', last.at)] }]
}

function coldMix({ batches, loads, rules }: BayFacts) {
  const mixes = [
    ...batches.map(({ entry, mixedAt }) => ({ id: entry.id, at: mixedAt, mixC: entry.body.mixC })),
    ...loads.map(({ entry }) => ({ id: entry.id, at: entry.happenedAt, mixC: entry.body.temperatureC })),
  ]
  return mixes.flatMap(({ id, at, mixC }) =>
    mixC === undefined || keepsLimit(mixC, rules.limits['mix.tempLeastC'])
      ? []
      : [{ since: at, evidence: [shows(id, 'Mix', mixC, '°C', at)] }],
  )
}

const belowFive: AlertRule = {
  id: 'A02',
  family: 'frost',
  title: 'Screed too cold',
  limits: ['frost.screedC', 'frost.belowHours', 'frost.guardDays'],
  raise: (facts) => {
    const { life, rules, screed, asOf } = facts
    if (life.startedAt === null || life.t0 === null) return []
    const limit = rules.limits['frost.screedC']
    const allowedMs = rules.limits['frost.belowHours'].value * hourMs
    const window = { from: life.startedAt, until: life.t0 + guardMs(facts) }
    const spells = breachesOf(
      screed.coldest,
      (tempC) => keepsLimit(tempC, limit),
      limit.value,
      window,
      facts.maxGapMs,
    )
    const mayLast = ({ from, mostMs }: Breach) => (mostMs ?? asOf - from) > allowedMs
    const shown = joinColdSpells(
      spells.filter(({ leastMs }) => leastMs > allowedMs),
      nightMs,
    )
    const doubtful = joinColdSpells(
      spells.filter(
        (spell) =>
          spell.leastMs <= allowedMs &&
          mayLast(spell) &&
          !shown.some(
            ({ from, until }) => spell.from >= from - nightMs && spell.from <= (until ?? asOf) + nightMs,
          ),
      ),
      nightMs,
    )
    const raisedBy = (spell: Breach, certain: boolean): Raised => ({
      severity: certain ? 'act' : 'not proven',
      since: spell.from,
      until: spell.until ?? (asOf > window.until ? window.until : null),
      evidence: coldEvidence(facts, spell, certain),
      whatToDo: certain
        ? 'Add heat or blankets; keep the sheet on longer by the cold hours; hold back traffic.'
        : 'Read the screed again and put a logger in it: nobody knows how long it was this cold.',
    })
    return [
      ...shown.map((spell) => raisedBy(spell, true)),
      ...doubtful.map((spell) => raisedBy(spell, false)),
    ]
  },
}

function coldEvidence({ screed }: BayFacts, spell: Breach, certain: boolean): Evidence[] {
  const { worst } = spell
  const maturity = screed.maturityAt(worst.at)
  return [
    shows(worst.entry, 'Coldest in the screed', worst.value, '°C', worst.at),
    shows(null, certain ? 'Below for' : 'Below for at least', spell.leastMs / hourMs, 'h', spell.from),
    shows(null, 'Readings below', spell.readings, ''),
    shows(null, 'Maturity then', rounded(maturity.provenCh, 0), '°C·h', worst.at),
    ...(maturity.unknownHours > 0
      ? [shows(null, 'Hours nobody measured before', maturity.unknownHours, 'h', worst.at)]
      : []),
  ]
}

const frozen: AlertRule = {
  id: 'A03',
  family: 'frost',
  title: 'Screed frozen early',
  limits: ['frost.maturityCh', 'frost.onsetC'],
  source: 'BS 8204-1: frost-damaged screed is removed (quoted second-hand)',
  raise: (facts) => {
    const { life, rules, screed, asOf } = facts
    if (life.startedAt === null || life.t0 === null) return []
    const onset = rules.limits['frost.onsetC']
    const needed = rules.limits['frost.maturityCh'].value
    const spells = breachesOf(
      screed.coldest,
      (tempC) => keepsLimit(tempC, onset),
      onset.value,
      { from: life.startedAt, until: asOf },
      facts.maxGapMs,
    )
    const tooYoung = (at: number): 'yes' | 'no' | 'not known' => {
      if (!life.cementBound) return at < life.t0! + guardMs(facts) ? 'yes' : 'no'
      const { provenCh, atMostCh } = screed.maturityAt(at)
      if (provenCh >= needed) return 'no'
      if (atMostCh < needed) return 'yes'
      return at < life.t0! + maturityDoubtDays * dayMs ? 'not known' : 'no'
    }
    const young = spells.filter(({ from }) => tooYoung(from) !== 'no')
    return joinColdSpells(young, nightMs).map((spell): Raised => {
      const certain = tooYoung(spell.from) === 'yes'
      return {
        severity: certain ? 'stop' : 'not proven',
        since: spell.from,
        until: null,
        evidence: coldEvidence(facts, spell, true),
        whatToDo: certain
          ? 'No traffic and no sudden heat. After 7 days above 5 °C test the edges and take a core; take it that the affected part comes out.'
          : 'It froze and nobody knows whether it was strong enough. Test the edges and take a core before anything goes on it.',
      }
    })
  },
}

const probablyFrozen: AlertRule = {
  id: 'A04',
  family: 'frost',
  title: 'Frost likely, not measured in the screed',
  limits: ['frost.onsetC', 'frost.guardDays'],
  raise: (facts) => {
    const { life, rules, screed, asOf } = facts
    if (life.startedAt === null || life.t0 === null) return []
    const onset = rules.limits['frost.onsetC']
    const keeps = (tempC: number) => keepsLimit(tempC, onset)
    const window = { from: life.startedAt, until: Math.min(asOf, life.t0 + guardMs(facts)) }
    const room = airTrace(facts.air, 'airC')
    const unmeasured = ({ worst }: Breach) => valueAt(screed.coldest, worst.at, facts.maxGapMs) === null
    const safeByThen = ({ worst }: Breach) =>
      life.cementBound && screed.maturityAt(worst.at).provenCh >= rules.limits['frost.maturityCh'].value
    const inRoom = breachesOf(room, keeps, onset.value, window, facts.maxGapMs)
    const outside = breachesOf(facts.outside, keeps, onset.value, window, facts.maxGapMs).filter(
      ({ worst }) => valueAt(room, worst.at, facts.maxGapMs) === null,
    )
    const spells = [...inRoom, ...outside].filter((spell) => unmeasured(spell) && !safeByThen(spell))
    spells.sort((a, b) => a.from - b.from)
    return joinColdSpells(spells, nightMs).map(
      (spell): Raised => ({
        severity: 'act',
        since: spell.from,
        until: null,
        evidence: [
          shows(
            spell.worst.entry,
            inRoom.some(({ worst }) => worst.entry === spell.worst.entry)
              ? 'Coldest air'
              : 'Coldest air outside',
            spell.worst.value,
            '°C',
            spell.worst.at,
          ),
          shows(null, 'Readings at or below freezing', spell.readings, ''),
          shows(null, 'Temperature in the screed', 'nobody measured it', '', spell.worst.at),
          shows(null, 'Age of the bay', hoursBetween(life.t0!, spell.worst.at), 'h', spell.worst.at),
        ],
        whatToDo: 'Treat it as frozen until the edges are tested; put a logger in the screed tonight.',
      }),
    )
  },
}

export const frost: readonly AlertRule[] = [coldPour, belowFive, frozen, probablyFrozen]
