import type { BayStory, StorySeries } from '#model/record/story.ts'
import { hourMs } from '#model/time.ts'
import { siteDayStart } from '#model/watch/facts/time.ts'
import { shows } from '#model/watch/rule.ts'
import { gather } from './gather.ts'
import { type Comparison, mostEvidence, ours, type Question } from './question.ts'

/** Fewer readings a day, or fewer values among them, can be alike by chance. */
const leastReadings = 12
const leastValues = 4

/** One day of one logger column, told by the values it holds. */
interface DayPrint {
  print: string
  bay: string
  zone: string
  entry: string
  quantity: string
  day: number
}

function daysOf(
  { bay, zone, timeZone }: BayStory,
  { at, value, entry, quantity, madeBy }: StorySeries,
): DayPrint[] {
  if (madeBy !== null) return []
  const days: DayPrint[] = []
  let first = 0
  while (first < at.length) {
    const day = siteDayStart(at[first]!, timeZone)
    let end = first
    // A site day is at least 23 h long, so only the last readings of a day need the calendar.
    while (end < at.length && (at[end]! - day < 22 * hourMs || siteDayStart(at[end]!, timeZone) === day))
      end++
    const values = value.slice(first, end)
    if (values.length >= leastReadings && new Set(values).size >= leastValues) {
      days.push({ print: `${quantity} ${printOf(values)}`, bay: bay.id, zone: zone.id, entry, quantity, day })
    }
    first = end
  }
  return days
}

/** Two 32-bit mixes of the values, so that a thousand bays need not keep every day as text. */
function printOf(values: readonly number[]): string {
  let one = 0x811c9dc5
  let other = values.length
  for (const value of values) {
    const whole = Math.round(value * 1000)
    one = Math.imul(one ^ whole, 0x01000193)
    other = Math.imul(other ^ (whole + 0x9e3779b9), 0x85ebca6b) ^ (other >>> 13)
  }
  return `${values.length} ${one >>> 0} ${other >>> 0}`
}

/**
 * Asks about logger records that repeat each other value by value for a whole day: of two loggers on one day, or of
 * different days.
 */
export function comparedSeries(): Comparison {
  const firsts = new Map<string, DayPrint>()
  const pairs = new Map<string, [DayPrint, DayPrint][]>()
  const compare = (one: DayPrint) => {
    const first = firsts.get(one.print)
    if (first === undefined) {
      firsts.set(one.print, one)
      return
    }
    const key = [first.entry, one.entry, first.day === one.day ? 'one day' : 'days'].join(' ')
    gather(pairs, key, [first, one])
  }
  return {
    add: (story) => {
      for (const series of story.series) for (const day of daysOf(story, series)) compare(day)
    },
    questions: () => [...pairs].map(([key, found]) => questionOf(key, found)),
  }
}

function questionOf(key: string, found: readonly [DayPrint, DayPrint][]): Question {
  const [one, other] = found[0]!
  const sameDay = one.day === other.day
  const sameZone = one.zone === other.zone
  return {
    id: `copied series:${key}`,
    rule: 'copied series',
    asks: sameDay
      ? 'Two logger records hold the same values all day long. Was it one logger, written to two places?'
      : 'A logger shows on different days the same values, one by one. Was a day copied?',
    innocent: sameDay
      ? sameZone
        ? 'One logger stood for the whole room, and its file was read in for two bays.'
        : 'The file of one logger was read in for the wrong bay.'
      : 'The memory of the logger ran over and its file repeats itself.',
    bays: [...new Set([one.bay, other.bay])],
    evidence: [
      shows(null, 'Days alike', new Set(found.map(([, { day }]) => day)).size),
      ...found
        .slice(0, mostEvidence / 2)
        .flatMap(([a, b]) => [
          shows(a.entry, `Logger (${a.quantity})`, 'one day', '', a.day),
          shows(b.entry, 'The same values again', 'one day', '', b.day),
        ]),
    ],
    ...ours,
  }
}
