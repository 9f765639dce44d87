import type { BayStory, StorySeries } from '#model/record/story.ts'
import { dayMs, hoursBetween } from '#model/watch/facts/time.ts'
import { shows } from '#model/watch/rule.ts'
import { ours, type Question } from './question.ts'

/** A room holds no value to the last digit for so long. */
const flatMs = 2 * dayMs
/** A logger that reads in steps this wide stands still in a steady room, and honestly. [°C or %] */
const coarseStep = 0.5
/** A line is asked about from so many readings on, and when it climbs by so many steps of the logger. */
const lineReadings = 24
const lineSteps = 20

/**
 * Asks about measured series that are too even to have been measured: one value for two days, or a straight line to the
 * last digit. Series that say themselves that they were made by a model are left alone.
 */
export function evenSeriesQuestions(story: BayStory): Question[] {
  return story.series
    .filter(
      ({ madeBy, quantity, at }) =>
        madeBy === null && quantity !== 'flowC' && quantity !== 'airSpeedMs' && at.length > 1,
    )
    .flatMap((series) => {
      const step = smallestStep(series.value)
      return [flatQuestion(story, series, step), lineQuestion(story, series, step)].filter(
        (found) => found !== null,
      )
    })
}

function flatQuestion(story: BayStory, series: StorySeries, step: number | null): Question | null {
  if (step !== null && step >= coarseStep) return null
  const { at, value, entry, quantity } = series
  let start = 0
  let longest = { from: 0, until: 0 }
  for (let i = 1; i < at.length; i++) {
    if (value[i] !== value[start]) start = i
    if (at[i]! - at[start]! > at[longest.until]! - at[longest.from]!) longest = { from: start, until: i }
  }
  const [from, until] = [at[longest.from]!, at[longest.until]!]
  if (until - from <= flatMs) return null
  return {
    id: `flat series:${entry}:${quantity}`,
    rule: 'flat series',
    asks: 'This logger showed one value to the last digit for days. Did it lie where it should, and did it still measure?',
    innocent: 'It lay in a drawer or in the site office, or its sensor had failed.',
    bays: [story.bay.id],
    evidence: [
      shows(entry, 'One value for', hoursBetween(from, until), 'h', from),
      shows(null, 'Value', value[longest.from]!),
      shows(null, 'Readings', longest.until - longest.from + 1),
    ],
    ...ours,
  }
}

function lineQuestion(
  story: BayStory,
  { at, value, entry, quantity }: StorySeries,
  step: number | null,
): Question | null {
  if (step === null) return null
  for (let first = 0; first + lineReadings <= at.length; first++) {
    const last = first + lineReadings - 1
    if (Math.abs(value[last]! - value[first]!) < lineSteps * step) continue
    if (!onLine(at, value, first, last, step)) continue
    let end = last
    while (end + 1 < at.length && onLine(at, value, first, end + 1, step)) end++
    return {
      id: `straight series:${entry}:${quantity}`,
      rule: 'straight series',
      asks: 'These readings lie on a straight line to the last digit. Were they measured, or filled in between two readings?',
      innocent: 'The program of the logger filled a gap by itself.',
      bays: [story.bay.id],
      evidence: [
        shows(entry, 'On one line', end - first + 1, 'readings', at[first]!),
        shows(null, 'From', value[first]!),
        shows(null, 'To', value[end]!),
        shows(null, 'Step of the logger', step),
      ],
      ...ours,
    }
  }
  return null
}

/** True when every reading between two lies within half a step of the line through them. */
function onLine(
  at: readonly number[],
  value: readonly number[],
  first: number,
  last: number,
  step: number,
): boolean {
  const slope = (value[last]! - value[first]!) / (at[last]! - at[first]!)
  for (let i = first + 1; i < last; i++) {
    const line = value[first]! + slope * (at[i]! - at[first]!)
    if (Math.abs(value[i]! - line) > 0.5 * step + 1e-9) return false
  }
  return true
}

/** The smallest difference between two values of a series: what its logger can tell apart. Null when it never moved. */
export function smallestStep(value: readonly number[]): number | null {
  let smallest = Number.POSITIVE_INFINITY
  for (let i = 1; i < value.length; i++) {
    const step = Math.abs(value[i]! - value[i - 1]!)
    if (step > 1e-9 && step < smallest) smallest = step
  }
  return Number.isFinite(smallest) ? smallest : null
}
