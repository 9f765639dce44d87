import type { Evidence } from '../alert.ts'
import type { OpenSpan } from '../facts/cover.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs, hourMs, hoursBetween, rounded } from '../facts/time.ts'
import { type AlertRule, shows } from '../rule.ts'
import { evaporationEvidence, harshAt } from './drying-out.ts'

/** Sheets keep a cement screed damp. A calcium sulfate screed must dry, so none of this is asked of it. */
function isCured(facts: BayFacts): facts is BayFacts & { life: { t0: number } } {
  return facts.life.t0 !== null && facts.life.cementBound
}

/** The stretch from the finish to the first whole sheet. */
function firstOpening({ open, life }: BayFacts): OpenSpan | null {
  return open.find(({ from, off }) => from === life.t0 && off === null) ?? null
}

function sheetsTried({ cover }: BayFacts): Evidence[] {
  return cover
    .filter(({ whole }) => !whole)
    .map(({ on }) =>
      shows(on.id, 'Sheet that left part open', on.body.coveredPercent, '% covered', on.happenedAt),
    )
}

const late: AlertRule = {
  id: 'A24',
  family: 'curing',
  title: 'Sheet late',
  limits: ['cure.coverWatchHours', 'cure.coverActHours', 'evaporation.watch'],
  raise: (facts) => {
    if (!isCured(facts)) return []
    const { life, rules, asOf } = facts
    const opening = firstOpening(facts)
    if (opening === null) return []
    const watchHours = rules.limits['cure.coverWatchHours'].value
    const actHours = rules.limits['cure.coverActHours'].value
    const missingAt = life.t0 + rules.limits['cure.missingHours'].value * hourMs
    const coveredAt = opening.until ?? asOf
    const harsh = harshAt(facts, life.t0, Math.min(coveredAt, life.t0 + watchHours * hourMs))
    const share = harsh === null ? 1 : 0.5
    const watchAt = life.t0 + share * watchHours * hourMs
    const actAt = life.t0 + share * actHours * hourMs
    // While it still lies open the limit is reached at the instant; a sheet laid at that very instant keeps it.
    const passed = (limit: number) => (opening.until === null ? asOf >= limit : coveredAt > limit)
    if (!passed(watchAt)) return []
    const mustAct = passed(actAt)
    const over = opening.until ?? (asOf >= missingAt ? missingAt : null)
    return [
      {
        severity: mustAct ? 'act' : 'watch',
        limit: mustAct ? 'cure.coverActHours' : 'cure.coverWatchHours',
        since: watchAt,
        gradedAt: mustAct ? actAt : watchAt,
        until: over === null ? null : Math.min(over, missingAt),
        evidence: [
          shows(life.finish?.id ?? null, 'Finished', words(life.t0From), '', life.t0),
          shows(opening.on?.id ?? null, 'Open for', hoursBetween(life.t0, coveredAt), 'h', coveredAt),
          ...sheetsTried(facts),
          ...(harsh === null
            ? [shows(null, 'Evaporation meanwhile', meanwhile(facts, life.t0, coveredAt))]
            : [
                ...evaporationEvidence(harsh, 1).slice(0, -1),
                shows(null, 'Time allowed', 'halved, because it dries fast', '', harsh.at),
              ]),
        ],
        whatToDo: 'Cover it now; then look whether the surface has dried out.',
      },
    ]
  },
}

function words(from: BayFacts['life']['t0From']): string {
  return from === 'finish' ? 'by the record' : `not recorded; taken from the ${from}`
}

function meanwhile({ evaporation }: BayFacts, from: number, until: number): string {
  const read = evaporation.filter(({ at }) => at >= from && at <= until)
  if (read.length === 0) return 'not known: no air and humidity were read'
  return read.every(({ measured }) => measured)
    ? 'below the limit at every reading'
    : 'not shown to be high; not every input was read'
}

const missing: AlertRule = {
  id: 'A25',
  family: 'curing',
  title: 'Not cured',
  limits: ['cure.missingHours', 'cure.days'],
  raise: (facts) => {
    if (!isCured(facts)) return []
    const { life, rules, asOf } = facts
    const missingAt = life.t0 + rules.limits['cure.missingHours'].value * hourMs
    const opening = firstOpening(facts)
    if (opening === null || (opening.until ?? asOf) < missingAt) return []
    return [
      {
        severity: 'act',
        nonconformance: true,
        since: missingAt,
        until: null,
        evidence: [
          shows(life.finish?.id ?? null, 'Finished', words(life.t0From), '', life.t0),
          opening.on === null
            ? shows(null, 'Sheet', 'none recorded')
            : shows(
                opening.on.id,
                'First sheet after',
                hoursBetween(life.t0, opening.until!),
                'h',
                opening.until,
              ),
          ...sheetsTried(facts),
        ],
        whatToDo: 'Cover what can still be saved, mark the area, scratch and hammer it on day 14.',
      },
    ]
  },
}

const short: AlertRule = {
  id: 'A26',
  family: 'curing',
  title: 'Cured too short',
  limits: ['cure.days', 'cure.daysLeast', 'cure.coldC'],
  raise: (facts) => {
    if (!isCured(facts)) return []
    const { rules, asOf, curing, cover } = facts
    if (curing === null || curing.firstCoverAt === null || curing.state === 'enough') return []
    const last = facts.open.at(-1)
    const opened = facts.open.find(({ from }) => from === curing.endedAt) ?? last
    if (opened === undefined || opened.off === null) return []
    const forGood =
      curing.endedAt !== null ||
      opened.off.body.why === 'end of curing' ||
      asOf - opened.from > rules.limits['cure.sheetOffHours'].value * hourMs
    if (!forGood || (opened.until !== null && curing.endedAt === null)) return []
    const days = rules.limits['cure.days'].value
    const least = rules.limits['cure.daysLeast'].value
    const defect = curing.atMostHours < least * 24
    const unclear = curing.state === 'not known'
    const recoverable = asOf - opened.from <= rules.limits['cure.recoverHours'].value * hourMs
    return [
      {
        severity: unclear ? 'not proven' : defect ? 'act' : 'watch',
        nonconformance: defect,
        limit: defect ? 'cure.daysLeast' : 'cure.days',
        since: opened.from,
        until: null,
        evidence: [
          shows(opened.off.id, 'Sheet off', opened.off.body.why, '', opened.from),
          shows(null, 'Covered', rounded(curing.coveredHours / 24, 2), 'days'),
          ...(curing.coldHours > 0 ? [shows(null, 'Of these too cold to count', curing.coldHours, 'h')] : []),
          ...(curing.unknownHours > 0
            ? [shows(null, 'Of these with a temperature nobody read', curing.unknownHours, 'h')]
            : []),
          shows(null, 'Counts as cured', rounded(curing.provenHours / 24, 2), 'days'),
          shows(null, 'Needed', days, 'days'),
          ...cover
            .filter(({ on }) => !on.body.edgesHeld)
            .map(({ on, from }) => shows(on.id, 'Edges of the sheet', 'not held down', '', from)),
        ],
        whatToDo: recoverable
          ? 'Cover it again now; it has not lain open too long to be worth it.'
          : 'Too late to cover again: test the surface and the soundness, and say so at the release.',
      },
    ]
  },
}

const off: AlertRule = {
  id: 'A27',
  family: 'curing',
  title: 'Sheet off too long',
  limits: ['cure.sheetOffHours', 'cure.daysLeast'],
  raise: (facts) => {
    if (!isCured(facts)) return []
    const { life, rules, asOf, open } = facts
    const allowedMs = rules.limits['cure.sheetOffHours'].value * hourMs
    const guardedUntil = life.t0 + rules.limits['cure.daysLeast'].value * dayMs
    return open.flatMap((opening) => {
      if (opening.off === null || opening.from >= guardedUntil) return []
      const end = Math.min(opening.until ?? asOf, guardedUntil)
      if (end - opening.from <= allowedMs) return []
      return [
        {
          severity: 'act' as const,
          since: opening.from + allowedMs,
          until: opening.until === null && asOf < guardedUntil ? null : end,
          evidence: [
            shows(opening.off.id, 'Sheet off', opening.off.body.why, '', opening.from),
            shows(opening.on?.id ?? null, 'Open for', hoursBetween(opening.from, opening.until ?? asOf), 'h'),
          ],
          whatToDo: 'Lay the sheet again and hold its edges down.',
        },
      ]
    })
  },
}

export const curing: readonly AlertRule[] = [late, missing, short, off]
