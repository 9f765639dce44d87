import type { StoryEntry } from '#model/record/entry.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import { airTrace } from '../facts/air.ts'
import type { BayFacts } from '../facts/index.ts'
import { dayMs, hourMs, hoursBetween, minuteMs } from '../facts/time.ts'
import { lastIndexBy, lowestIn } from '../facts/trace.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

const writeNow = 'Write it down now; it will be marked as late, and that is better than missing.'

const gap: AlertRule = {
  id: 'A47',
  family: 'record',
  title: 'Gap in the record',
  limits: ['record.ambientGapHours', 'record.youngDays', 'record.sandMoisturePercent'],
  raise: (facts) => [...airGaps(facts), ...frostUnmeasured(facts), ...batchGaps(facts)],
}

/** Longer than a day without a reading of the room while the bay is young. */
function airGaps({ life, rules, asOf, air }: BayFacts): Raised[] {
  if (life.t0 === null) return []
  const allowedMs = rules.limits['record.ambientGapHours'].value * hourMs
  const end = Math.min(asOf, life.t0 + rules.limits['record.youngDays'].value * dayMs)
  const trace = airTrace(air, 'airC')
  const found: Raised[] = []
  let last = life.t0
  let entry: string | null = life.finish?.id ?? null
  const look = (at: number, read: boolean) => {
    if (at - last > allowedMs) {
      found.push({
        severity: 'watch',
        limit: 'record.ambientGapHours',
        since: last + allowedMs,
        until: read || end < asOf ? at : null,
        evidence: [shows(entry, 'No air reading for', hoursBetween(last, at), 'h', last)],
        whatToDo: writeNow,
      })
    }
  }
  for (let i = lastIndexBy(trace.at, life.t0) + 1; i < trace.at.length && trace.at[i]! <= end; i++) {
    look(trace.at[i]!, true)
    last = trace.at[i]!
    entry = trace.entries[trace.from[i]!]!
  }
  look(end, false)
  return found
}

/** Cold air in the first days, and nobody measured in the screed within a day of it. */
function frostUnmeasured({ life, rules, asOf, air, outside, screed }: BayFacts): Raised[] {
  if (life.t0 === null) return []
  const until = Math.min(asOf, life.t0 + rules.limits['frost.guardDays'].value * dayMs)
  const cold = [airTrace(air, 'airC'), outside]
    .map((trace) => lowestIn(trace, life.t0!, until))
    .filter((read) => read !== null && !keepsLimit(read.value, rules.limits['frost.screedC']))
    .find(
      (read) => read !== null && lowestIn(screed.coldest, read.at - dayMs / 2, read.at + dayMs / 2) === null,
    )
  if (cold === undefined || cold === null) return []
  return [
    {
      severity: 'watch',
      limit: 'frost.screedC',
      since: cold.at,
      until: null,
      evidence: [
        shows(cold.entry, 'Air', cold.value, '°C', cold.at),
        shows(null, 'Temperature in the screed', 'nobody measured it'),
      ],
      whatToDo: 'Put a logger in the screed for as long as it has to be guarded against frost.',
    },
  ]
}

/** Which batch lies where, and how wet its sand was. */
function batchGaps({ life, batches, rules }: BayFacts): Raised[] {
  if (life.t0From !== 'finish' || life.t0 === null || batches.length === 0) return []
  const unplaced = batches.filter(
    ({ entry: { body } }) => body.areaNote === undefined && body.fromX === undefined,
  )
  const dryShare =
    (100 * batches.filter(({ entry }) => entry.body.sandMoisturePercent !== undefined).length) /
    batches.length
  const sand = !keepsLimit(dryShare, rules.limits['record.sandMoisturePercent'])
  if (unplaced.length === 0 && !sand) return []
  return [
    {
      severity: 'watch',
      limit: sand ? 'record.sandMoisturePercent' : undefined,
      since: life.t0,
      until: null,
      evidence: [
        ...(unplaced.length > 0
          ? [
              shows(
                unplaced[0]!.entry.id,
                'Batches that do not say where they lie',
                unplaced.length,
                `of ${batches.length}`,
              ),
            ]
          : []),
        ...(sand ? [shows(null, 'Batches with a sand moisture', dryShare, '%')] : []),
      ],
      whatToDo: writeNow,
    },
  ]
}

/** A logger flat for so long lay in a drawer. Our judgement. */
const flatMs = 2 * dayMs
/** So many facts over so many days, all entered within this time, were written in one sitting. Our judgement. */
const sitting = { facts: 8, days: 3, withinMs: hourMs }

const tooGood: AlertRule = {
  id: 'A48',
  family: 'record',
  title: 'Too good to be true',
  limits: ['record.sameReadings'],
  raise: (facts) => {
    const found = [
      ...sameReadings(facts),
      ...sameMinute(facts),
      ...flatLoggers(facts),
      ...sameNumbers(facts),
      ...oneSitting(facts),
    ]
    return found.map(
      ({ since, evidence }): Raised => ({
        severity: 'watch',
        since,
        until: null,
        evidence,
        whatToDo: 'Quality manager: ask how these were read. It is a question, not an accusation.',
      }),
    )
  },
}

interface Odd {
  since: number
  evidence: Evidence[]
}

type Typed = { id: string; happenedAt: number; key: string }

/** Runs of the same key longer than the rule allows. */
function runs(items: readonly Typed[], allowed: number): Typed[][] {
  const found: Typed[][] = []
  let run: Typed[] = []
  for (const item of [...items, { id: '', happenedAt: 0, key: '\u0000' }]) {
    if (run.at(-1)?.key === item.key) run.push(item)
    else {
      if (run.length > allowed) found.push(run)
      run = [item]
    }
  }
  return found
}

function sameReadings({ story, rules }: BayFacts): Odd[] {
  const allowed = rules.limits['record.sameReadings'].value
  const air = entriesOf(story, 'air-read').map(({ id, happenedAt, body }) => ({
    id,
    happenedAt,
    key: `${body.place ?? ''} ${body.airC} ${body.rhPercent ?? ''} ${body.surfaceC ?? ''}`,
  }))
  const screed = entriesOf(story, 'screed-temperature-read').map(({ id, happenedAt, body }) => ({
    id,
    happenedAt,
    key: `${body.position ?? ''} ${body.depthMm ?? ''} ${body.screedC}`,
  }))
  return [...runs(air, allowed), ...runs(screed, allowed)].map((run) => ({
    since: run.at(-1)!.happenedAt,
    evidence: [shows(run[0]!.id, 'Equal readings in a row', run.length, '', run[0]!.happenedAt)],
  }))
}

/** Typed readings that fall on the same minute of the day, day after day. */
function sameMinute({ story, rules }: BayFacts): Odd[] {
  const allowed = rules.limits['record.sameReadings'].value
  const byMinute = new Map<number, Typed[]>()
  for (const { id, happenedAt, source } of entriesOf(story, 'air-read')) {
    if (source !== 'typed') continue
    const minute = Math.floor((happenedAt % dayMs) / minuteMs)
    byMinute.set(minute, [...(byMinute.get(minute) ?? []), { id, happenedAt, key: '' }])
  }
  return [...byMinute.values()]
    .filter((same) => same.length > allowed)
    .map((same) => ({
      since: same[allowed]!.happenedAt,
      evidence: [
        shows(
          same[0]!.id,
          'Readings at the very same minute of the day',
          same.length,
          '',
          same[0]!.happenedAt,
        ),
      ],
    }))
}

function flatLoggers({ story }: BayFacts): Odd[] {
  return story.series.flatMap(({ at, value, entry, quantity }): Odd[] => {
    if (quantity === 'flowC' || quantity === 'airSpeedMs') return []
    let start = 0
    for (let i = 1; i < at.length; i++) {
      if (value[i] !== value[start]) start = i
      else if (at[i]! - at[start]! > flatMs) {
        const flat = hoursBetween(at[start]!, at[i]!)
        return [
          {
            since: at[i]!,
            evidence: [shows(entry, `Logger flat (${quantity}) for more than`, flat, 'h', at[start]!)],
          },
        ]
      }
    }
    return []
  })
}

/** Points of one test that are all alike. */
function sameNumbers({ story, rules }: BayFacts): Odd[] {
  const allowed = rules.limits['record.sameReadings'].value
  const lists = [
    ...entriesOf(story, 'thickness-measured').map((entry) => ({
      entry,
      what: 'Equal thicknesses',
      values: entry.body.points.map(({ mm }) => mm),
    })),
    ...entriesOf(story, 'soundness-tested').map((entry) => ({
      entry,
      what: 'Equal indentations',
      values: entry.body.points.map(({ indentationMm }) => indentationMm),
    })),
  ]
  return lists
    .filter(({ values }) => values.length > allowed && new Set(values).size === 1)
    .map(({ entry, what, values }) => ({
      since: entry.happenedAt,
      evidence: [shows(entry.id, what, values.length, '', entry.happenedAt)],
    }))
}

function oneSitting({ story, asOf }: BayFacts): Odd[] {
  const typed: StoryEntry[] = story.entries
    .filter(
      ({ source, withdrawn, recordedAt, subject }) =>
        source === 'typed' && !withdrawn && recordedAt <= asOf && subject === story.bay.id,
    )
    .sort((a, b) => a.recordedAt - b.recordedAt)
  for (let first = 0, last = 0; last < typed.length; last++) {
    while (typed[last]!.recordedAt - typed[first]!.recordedAt > sitting.withinMs) first++
    const together = typed.slice(first, last + 1)
    const days = new Set(together.map(({ happenedAt }) => Math.floor(happenedAt / dayMs)))
    if (together.length < sitting.facts || days.size < sitting.days) continue
    return [
      {
        since: typed[last]!.recordedAt,
        evidence: [
          shows(
            typed[first]!.id,
            'Facts entered in one sitting',
            together.length,
            '',
            typed[first]!.recordedAt,
          ),
          shows(null, 'Days they speak of', days.size),
        ],
      },
    ]
  }
  return []
}

export const record: readonly AlertRule[] = [gap, tooGood]
