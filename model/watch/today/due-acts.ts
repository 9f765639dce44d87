import { daysByRule } from '#model/drying/index.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { airTrace, nearestReading } from '../facts/air.ts'
import type { BayFacts } from '../facts/index.ts'
import { countingTests, judgedTests, pointsNeeded } from '../facts/moisture.ts'
import { dayMs, hourMs, rounded, siteClock } from '../facts/time.ts'
import { harshAt } from '../families/drying-out.ts'
import type { DueAct } from '../today.ts'

/** What falls due later than this is not yet today's business; a lying sheet always is. */
const horizonMs = 2 * dayMs
const readingHours = [7, 15]
/** A reading this near to its hour is that reading. */
const nearSlotMs = 3 * hourMs

interface Due extends Omit<DueAct, 'overdue' | 'recordTitle'> {
  /** Shown however far ahead it is. */
  always?: boolean
  /** How long after its hour it is not yet called overdue. */
  graceMs?: number
}

/**
 * Returns what falls due for a bay, soonest first.
 * @param aheadMs how far ahead is looked; when it is given, every reading on the way is listed and not only the next.
 */
export function dueActs(facts: BayFacts, aheadMs?: number): DueAct[] {
  if (facts.life.coveredAt !== null) return []
  const horizon = aheadMs ?? horizonMs
  const acts =
    facts.life.startedAt === null
      ? beforePour(facts, horizon)
      : [
          ...sheetActs(facts),
          ...readings(facts, aheadMs),
          ...guarding(facts),
          ...tests(facts),
          ...decision(facts),
        ]
  return acts
    .filter(({ at, always }) => always === true || at <= facts.asOf + horizon)
    .map(({ what, at, because, record, graceMs = 0 }) => ({
      what,
      at: Math.round(at),
      overdue: at + graceMs < facts.asOf,
      because,
      record,
      recordTitle: kinds[record].title,
    }))
    .sort((a, b) => a.at - b.at)
}

function beforePour({ life, story, asOf }: BayFacts, horizon: number): Due[] {
  const { plannedFor } = life
  if (plannedFor === null || plannedFor - asOf > horizon) return []
  const has = (kind: KindName) => story.entries.some((entry) => entry.kind === kind && !entry.withdrawn)
  const before = (what: string, record: KindName): Due[] =>
    has(record) ? [] : [{ what, at: plannedFor, because: 'Before the pour.', record }]
  return [
    ...before('Survey the base', 'base-surveyed'),
    ...before('Check the edge strip', 'edge-strip-fitted'),
    ...(story.zone.body.heated ? before('Pressure-test the pipes', 'pipes-pressure-tested') : []),
  ]
}

function sheetActs(facts: BayFacts): Due[] {
  const { life, curing, cover, open, rules, asOf } = facts
  if (life.t0 === null || curing === null || !life.cementBound) return []
  const needed = rules.limits['cure.days'].value
  const last = cover.at(-1)
  if (last?.until === null && last.whole) {
    if (!last.on.body.edgesHeld) {
      const hold: Due = {
        what: 'Hold the edges of the sheet down',
        at: asOf,
        because: 'They are not held.',
        record: 'sheet-on',
      }
      return [hold, sheetOffDue(facts, needed)]
    }
    return [sheetOffDue(facts, needed)]
  }
  const lying = open.at(-1)
  if (lying === undefined || lying.until !== null || curing.state === 'enough' || curing.endedAt !== null)
    return []
  if (lying.off === null) {
    const hours = rules.limits['cure.coverWatchHours'].value
    const harsh = harshAt(facts, life.t0, asOf) !== null
    return [
      {
        what: 'Lay the sheet',
        at: life.t0 + (harsh ? hours / 2 : hours) * hourMs,
        because: harsh
          ? `Within ${hours / 2} h of the finish, because it dries fast.`
          : `Within ${hours} h of the finish.`,
        record: 'sheet-on',
      },
    ]
  }
  return [
    {
      what: 'Lay the sheet again',
      at: lying.from + rules.limits['cure.sheetOffHours'].value * hourMs,
      because: `${rounded(curing.provenHours / 24, 1)} of ${needed} days of curing count.`,
      record: 'sheet-on',
    },
  ]
}

function sheetOffDue({ curing, asOf }: BayFacts, needed: number): Due {
  const at = curing!.dueOffAt ?? asOf - (curing!.atMostHours - needed * 24) * hourMs
  const cold = curing!.coldHours > 0 ? `, ${Math.round(curing!.coldHours)} cold hours added` : ''
  const unknown = curing!.state === 'not known' ? '; some hours have no temperature and may not count' : ''
  return {
    what: 'Take the sheet off',
    at,
    because: `${needed} days of curing${cold}${unknown}.`,
    record: 'sheet-off',
    always: true,
  }
}

/** 07:00 and 15:00 on the site's clock, for the first days. */
function readings(facts: BayFacts, aheadMs?: number): Due[] {
  const { life, rules, asOf, story, air } = facts
  if (life.t0 === null) return []
  const until = life.t0 + rules.limits['record.youngDays'].value * dayMs
  const trace = airTrace(air, 'airC')
  const lastDay = Math.max(1, Math.ceil(Math.min(aheadMs ?? 0, until - asOf) / dayMs))
  return Array.from({ length: lastDay + 1 }, (_, plusDays) => plusDays)
    .flatMap((plusDays) => readingHours.map((hour) => siteClock(asOf, story.timeZone, hour, plusDays)))
    .filter((at) => at > life.t0! && at <= until)
    .filter((at) => at > asOf || nearestReading(trace, at, nearSlotMs) === null)
    .filter(
      (at, i, slots) => aheadMs !== undefined || at <= asOf || slots.findIndex((slot) => slot > asOf) === i,
    )
    .map((at) => ({
      what: 'Read air and screed',
      at,
      because: `07:00 and 15:00 for the first ${rules.limits['record.youngDays'].value} days.`,
      record: 'air-read' as const,
      graceMs: hourMs,
    }))
}

/** Boards once there may be traffic; heat once the screed is old enough. */
function guarding(facts: BayFacts): Due[] {
  const { life, rules, protections, open, heating, story } = facts
  if (life.t0 === null) return []
  const acts: Due[] = []
  const last = open.at(-1)
  const uncoveredAt = life.cementBound
    ? last?.until === null && last.off !== null
      ? last.from
      : null
    : life.t0
  const boarded = protections.spans.some(({ what, until }) => what === 'boards' && until === null)
  if (uncoveredAt !== null && !boarded) {
    acts.push({
      what: 'Put boards on the routes',
      at: Math.max(uncoveredAt, life.t0 + rules.limits['traffic.boardsDays'].value * dayMs),
      because: 'From the end of curing until the covering.',
      record: 'protection-on',
    })
  }
  if (story.zone.body.heated && !heating.some(({ state }) => state === 'running')) {
    const first = life.cementBound ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays'
    acts.push({
      what: 'Heat for the first time',
      at: life.t0 + rules.limits[first].value * dayMs,
      because: `Not before day ${rules.limits[first].value}; the maker’s plan goes first.`,
      record: 'heating-noted',
    })
  }
  return acts
}

function tests(facts: BayFacts): Due[] {
  const { life, rules, story, open, asOf } = facts
  if (life.t0 === null) return []
  const acts: Due[] = []
  if (entriesOf(story, 'soundness-tested').length === 0) {
    acts.push({
      what: 'Test the soundness',
      at: life.t0 + rules.limits['soundness.ageDays'].value * dayMs,
      because: `From day ${rules.limits['soundness.ageDays'].value}.`,
      record: 'soundness-tested',
    })
  }
  const last = open.at(-1)
  const dryingFrom = life.cementBound
    ? last?.until === null && last.off !== null
      ? last.from
      : null
    : life.t0
  if (dryingFrom === null) return acts
  if (entriesOf(story, 'regularity-checked').length === 0) {
    const days = rules.limits['regularity.dryingDays'].value
    acts.push({
      what: 'Check the flatness',
      at: dryingFrom + days * dayMs,
      because: `After ${days} days of drying, when edges have curled if they will.`,
      record: 'regularity-checked',
    })
  }
  const method = story.zone.body.moistureMethod
  const counting = countingTests(judgedTests(facts, story.zone.body.covering), method)
  if (counting.length === 0) {
    const thicknessMm = story.bay.body.designThicknessMm
    const breakMm = story.bay.body.screed === 'calcium sulfate' ? 40 : 50
    const days = daysByRule({ thicknessMm, breakMm })
    acts.push({
      what: 'Test the moisture',
      at: dryingFrom + days * dayMs,
      because: `${days} days of drying by the planning rule; a plan, not an acceptance.`,
      record: 'moisture-read',
    })
    return acts
  }
  const newest = Math.max(...counting.map(({ at }) => at))
  const stale = newest + rules.limits['test.ageDays'].value * dayMs
  if (counting.some(({ acceptance }) => acceptance.verdict === 'fail') || asOf > stale) {
    acts.push({
      what: 'Repeat the moisture test',
      at: stale,
      because: `The last valid one is ${Math.floor((asOf - newest) / dayMs)} days old.`,
      record: 'moisture-read',
    })
  }
  return acts
}

/** Valid, fresh, dry readings and nobody has decided yet. */
function decision(facts: BayFacts): Due[] {
  const { story, rules, asOf } = facts
  const { moistureMethod, covering } = story.zone.body
  const counting = countingTests(judgedTests(facts, covering), moistureMethod)
  if (counting.length < pointsNeeded(facts)) return []
  if (counting.some(({ acceptance }) => acceptance.verdict === 'fail')) return []
  const newest = Math.max(...counting.map(({ at }) => at))
  if (asOf - newest > rules.limits['test.ageDays'].value * dayMs) return []
  if (entriesOf(story, 'bay-decided').some(({ happenedAt }) => happenedAt >= newest)) return []
  return [
    {
      what: 'Decide on the covering',
      at: newest + rules.limits['test.ageDays'].value * dayMs,
      because: 'The readings are within the limit; after this they are stale.',
      record: 'bay-decided',
      always: true,
    },
  ]
}
