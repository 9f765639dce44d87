import type { StoryEntry } from '#model/record/entry.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { dayMs, siteDayStart } from '#model/watch/facts/time.ts'
import { shows } from '#model/watch/rule.ts'
import { gather } from './gather.ts'
import { type Comparison, mostEvidence, ours, type Question } from './question.ts'

/** One set of numbers that a person wrote: the points of a test, or the readings of a day. */
interface WrittenSet {
  kind: KindName
  values: number[]
  bay: string
  zone: string
  day: number
  entry: string
  at: number
}

/** Fewer numbers than this say nothing when they repeat. */
const leastNumbers = 4
/** Fewer repeats than this are expected by chance in all the sets of the job, or nothing is asked. */
const expectedByChance = 0.01
/** How often two single numbers agree at the least, so that few data do not make chance look impossible. */
const leastAgreement = 0.1

/**
 * Asks about sets of numbers that were written more than once: the same points of a test, or the same readings of a day.
 * How often two numbers of a kind agree is counted from the job itself, within bays and over all of them; only sets whose
 * repetition chance does not explain are asked about.
 * @source the birthday problem: pairs · agreement^numbers
 * @provenance our judgement; the counting is published in any text on probability
 */
export function comparedValues(): Comparison {
  const byShape = new Map<string, WrittenSet[]>()
  return {
    add: (story) => {
      for (const one of setsOf(story)) gather(byShape, `${one.kind} ${one.values.length}`, one)
    },
    questions: () => {
      const air = [...byShape.values()].flat().filter(({ kind }) => kind === 'air-read')
      return [...[...byShape.values()].flatMap(repeatsIn), ...zonesAlike(air)]
    },
  }
}

function setsOf(story: BayStory): WrittenSet[] {
  const place = { bay: story.bay.id as string, zone: story.zone.id as string }
  const listed = (
    [
      'thickness-measured',
      'soundness-tested',
      'regularity-checked',
      'level-checked',
      'moisture-read',
    ] as const
  )
    .flatMap((kind) => entriesOf(story, kind) as StoryEntry[])
    .filter(({ source }) => source === 'typed')
    .map((entry) => ({
      ...place,
      kind: entry.kind,
      values: numbersOf(entry),
      entry: entry.id as string,
      at: entry.happenedAt,
      day: siteDayStart(entry.happenedAt, story.timeZone),
    }))
  return [...listed, ...airDays(story, place)].filter(
    // Points that are all alike are an alert of their own.
    ({ values }) => values.length >= leastNumbers && new Set(values).size > 1,
  )
}

function numbersOf(entry: StoryEntry): number[] {
  switch (entry.kind) {
    case 'thickness-measured':
      return entry.body.points.map(({ mm }) => mm)
    case 'soundness-tested':
      return entry.body.points.map(({ indentationMm }) => indentationMm)
    case 'regularity-checked':
      return entry.body.gapsMm.map(({ mm }) => mm)
    case 'level-checked':
      return entry.body.departuresMm.map(({ mm }) => mm)
    case 'moisture-read':
      return (entry.body.readings ?? []).flatMap(({ rhPercent, boxC }) => [
        rhPercent,
        ...(boxC === undefined ? [] : [boxC]),
      ])
    default:
      return []
  }
}

/** The typed air readings of each day as one set, when there are at least two of them. */
function airDays(story: BayStory, place: { bay: string; zone: string }): WrittenSet[] {
  const byDay = new Map<number, WrittenSet>()
  const readings = new Map<number, number>()
  for (const { id, source, happenedAt, body } of entriesOf(story, 'air-read')) {
    if (source !== 'typed' || body.place === 'outside') continue
    const day = siteDayStart(happenedAt, story.timeZone)
    const values = [body.airC, body.rhPercent, body.surfaceC, body.airSpeedMs].filter(
      (value) => value !== undefined,
    )
    const known = byDay.get(day)
    readings.set(day, (readings.get(day) ?? 0) + 1)
    if (known === undefined)
      byDay.set(day, { ...place, kind: 'air-read', values, entry: id, at: happenedAt, day })
    else known.values.push(...values)
  }
  return [...byDay.values()].filter(({ day }) => readings.get(day)! >= 2)
}

function repeatsIn(all: readonly WrittenSet[]): Question[] {
  const numbers = all[0]!.values.length
  const agreement = Math.max(
    leastAgreement,
    agreementOf([all]),
    agreementOf(Object.values(Object.groupBy(all, ({ bay }) => bay)).map((list) => list ?? [])),
  )
  return Object.values(Object.groupBy(all, ({ values }) => values.join(' '))).flatMap((list) => {
    const same = apart(list ?? [])
    if (same.length < 2) return []
    const expected = ways(all.length, same.length) * agreement ** (numbers * (same.length - 1))
    return expected < expectedByChance ? [questionOf(same, numbers)] : []
  })
}

/**
 * The sets of a repetition that should not agree. Air that is read once for a whole room stands honestly with all its bays,
 * so its sets count only from different days.
 */
function apart(list: readonly WrittenSet[]): WrittenSet[] {
  if (list[0]?.kind !== 'air-read') return [...list]
  return new Set(list.map(({ day }) => day)).size > 1 ? [...list] : []
}

/** Two zones agree to the last digit for a day when somebody read one for both; from so many days on it is asked. */
const zoneDays = 2

/** Asks about two zones whose air was written down alike on several days. */
function zonesAlike(all: readonly WrittenSet[]): Question[] {
  const pairs = new Map<string, WrittenSet[][]>()
  const ofDay = Object.values(Object.groupBy(all, ({ day, values }) => `${day} ${values.join(' ')}`))
  for (const list of ofDay) {
    const [first, ...others] = list ?? []
    const other = others.find(({ zone }) => zone !== first!.zone)
    if (first === undefined || other === undefined) continue
    const key = [first.zone, other.zone].sort().join(' ')
    gather(pairs, key, [first, other])
  }
  return [...pairs].flatMap(([key, days]) => {
    if (days.length < zoneDays) return []
    const both = days.flat()
    return [
      {
        ...questionOf(both, both[0]!.values.length),
        id: `copied values:zones ${key}`,
        asks: `The air of two zones was written down alike on ${days.length} days, to the last digit. Was each of them read?`,
        innocent: 'The rooms stand open to each other, and one reading was taken for both.',
      },
    ]
  })
}

/** How often two numbers of the same group agree: over the pairs within each group. */
function agreementOf(groups: readonly (readonly WrittenSet[])[]): number {
  let agreeing = 0
  let pairs = 0
  for (const group of groups) {
    const counts = new Map<number, number>()
    let total = 0
    for (const { values } of group) {
      for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
      total += values.length
    }
    for (const count of counts.values()) agreeing += count * (count - 1)
    pairs += total * (total - 1)
  }
  return pairs === 0 ? 0 : agreeing / pairs
}

/** How many ways there are to take `taken` of `all`. */
function ways(all: number, taken: number): number {
  let count = 1
  for (let i = 0; i < taken; i++) count *= (all - i) / (i + 1)
  return count
}

function questionOf(same: readonly WrittenSet[], numbers: number): Question {
  const sorted = same.toSorted((a, b) => a.at - b.at)
  const first = sorted[0]!
  const title = kinds[first.kind].title.toLowerCase()
  const days = (sorted.at(-1)!.day - first.day) / dayMs
  return {
    id: `copied values:${sorted.map(({ entry }) => entry).join(' ')}`,
    rule: 'copied values',
    asks: `The same ${numbers} numbers stand in ${sorted.length} places (${title})${days >= 1 ? ', on different days' : ''}. Was one reading written more than once?`,
    innocent: 'One test was written down twice, or for two bays that were tested as one.',
    bays: [...new Set(sorted.map(({ bay }) => bay))],
    evidence: sorted
      .slice(0, mostEvidence)
      .map(({ entry, values, at }) => shows(entry, 'Numbers', values.join(', '), '', at)),
    ...ours,
  }
}
