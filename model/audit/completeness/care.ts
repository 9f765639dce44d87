import { cleanOutline } from '#model/movement/index.ts'
import { ageAndCuring } from '#model/readiness/conditions/body.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import { airTrace } from '#model/watch/facts/air.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { dayMs, daysBetween, rounded } from '#model/watch/facts/time.ts'
import { lastIndexBy, lowestIn } from '#model/watch/facts/trace.ts'
import {
  beforeLaying,
  common,
  counted,
  doesNotApply,
  type Finding,
  judgement,
  met,
  notKnown,
  notMet,
  notYet,
  type Requirement,
} from './requirement.ts'

/** C5: the air of the first week, and the screed itself where it was cold outside. */
export const climateRead: Requirement = {
  id: 'C5',
  title: 'Climate',
  asks: 'The air was read at least twice a day for the first week; when it was cold outside, a logger lay in the screed.',
  whatToDo: 'Read in the file of the logger, or write down the readings that were made.',
  record: 'air-read',
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts }) => {
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const air = airFinding(facts)
    if (air.state === 'not met') return air
    const cold = coldFinding(facts)
    if (cold === null || cold.state === 'met') {
      const because = cold === null ? air.because : `${air.because} ${cold.because}`
      return { ...air, because, entries: [...air.entries, ...(cold?.entries ?? [])] }
    }
    // The file of a logger is read in when the logger is taken out.
    return air.notYet ? notYet(`${air.because} ${cold.because}`, cold.entries) : cold
  },
}

function airFinding({ life, air, rules, asOf }: BayFacts): Finding {
  const t0 = life.t0!
  const days = rules.limits['record.youngDays'].value
  const perDay = rules.limits['record.ambientPerDay']
  const trace = airTrace(air, 'airC')
  const passed = Math.min(days, Math.floor(daysBetween(t0, asOf)))
  const readings = Array.from({ length: passed }, (_, day) => {
    const before = (instant: number) => lastIndexBy(trace.at, instant - 1) + 1
    return before(t0 + (day + 1) * dayMs) - before(t0 + day * dayMs)
  })
  const first = lastIndexBy(trace.at, t0 - 1) + 1
  const entries = firstFew(trace.from, trace.entries, first, lastIndexBy(trace.at, t0 + days * dayMs))
  const short = readings.filter((count) => !keepsLimit(count, perDay)).length
  if (short > 0) {
    const fewest = Math.min(...readings)
    return notMet(
      `On ${counted(short, 'day')} of the first ${passed} there were too few air readings, at the fewest ${fewest} (${limitText(perDay)}).`,
      entries,
    )
  }
  if (passed < days)
    return notYet(`${passed} of the first ${days} days have passed, each with enough air readings.`)
  return met(`At least ${Math.min(...readings)} air readings on each of the first ${days} days.`, entries)
}

/** The entries behind a stretch of readings, each once. */
function firstFew(from: Int32Array, entries: readonly string[], first: number, last: number): string[] {
  const found = new Set<string>()
  for (let i = first; i <= last; i++) found.add(entries[from[i]!]!)
  return [...found]
}

/** Null when it did not have to be measured in the screed. */
function coldFinding({ life, story, outside, screed, rules, asOf }: BayFacts): Finding | null {
  const t0 = life.t0!
  const until = Math.min(asOf, t0 + rules.limits['frost.guardDays'].value * dayMs)
  const logger = story.series.find(
    ({ quantity, at }) => quantity === 'screedC' && at.some((instant) => instant >= t0 && instant <= until),
  )
  if (logger !== undefined) return met('A logger lay in the screed.', [logger.entry])
  const limit = rules.limits['frost.screedC']
  const read = lowestIn(outside, t0, until)
  const told = entriesOf(story, 'weather-forecast-noted').filter(
    ({ body }) => Date.parse(body.from) < until && Date.parse(body.until) > t0,
  )
  const typed = screed.unmeasured
    ? ''
    : ' It was read by hand in the screed, and a night between two readings stays unknown.'
  const cold =
    read !== null && !keepsLimit(read.value, limit)
      ? `Outside it fell to ${rounded(read.value, 1)} °C (${limitText(limit)})`
      : undefined
  if (cold !== undefined) return notMet(`${cold}, and no logger lay in the screed.${typed}`, [read!.entry])
  if (read !== null) return null
  const coldest = told.toSorted((a, b) => a.body.lowestC - b.body.lowestC)[0]
  if (coldest !== undefined && keepsLimit(coldest.body.lowestC, limit)) return null
  const because =
    coldest === undefined
      ? 'Nobody wrote down how cold it was outside'
      : `${coldest.body.lowestC} °C was forecast and nobody wrote down how cold it was outside`
  return notKnown(
    `${because}, and no logger lay in the screed: whether it was needed is not known.${typed}`,
    coldest === undefined ? [] : [coldest.id],
  )
}

/** C6: kept under the sheet for as long as the rules ask. */
export const curedLongEnough: Requirement = {
  id: 'C6',
  title: 'Curing',
  asks: 'The sheet has its times on and off, and lay for the days that the rules ask.',
  whatToDo:
    'Write down when the sheet was on and off. When it was too short, raise a non-conformance and test the surface.',
  record: 'sheet-on',
  mayBeAnswered: true,
  source: 'BS 8204-1: at least 7 days under the sheet',
  provenance: 'quoted second-hand',
  find: ({ facts }) => {
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    if (!facts.life.cementBound)
      return doesNotApply('A calcium sulfate screed is not kept under a sheet for days.')
    const lies = facts.cover.at(-1)?.until === null
    const { state, because, entries } = ageAndCuring(facts)
    if (
      state === 'not met' &&
      (lies || (facts.cover.length === 0 && daysBetween(facts.life.t0!, facts.asOf) < 1))
    )
      return notYet(because, entries)
    return { met, 'not met': notMet, unknown: notKnown }[state](because, entries)
  },
}

/** C7: the edge strip on every side, as a photo shows it. */
export const edgeStripShown: Requirement = {
  id: 'C7',
  title: 'Edge strip',
  asks: 'A photo shows the edge strip on every side.',
  whatToDo:
    'Add the photos that were taken before laying, with the tag “Edge strip”. Without one nobody can show it later.',
  record: 'edge-strip-fitted',
  mayBeAnswered: true,
  ...common,
  find: ({ facts }) => {
    const { story } = facts
    if (story.bay.body.construction === 'bonded')
      return doesNotApply('A bonded screed moves with its base and is not parted from the walls.')
    const strips = entriesOf(story, 'edge-strip-fitted')
    const last = strips.at(-1)
    const ids = strips.map(({ id }) => id as string)
    const photos = entriesOf(story, 'photo-added').filter(
      ({ body }) => body.tag === 'edge strip' || (body.of !== undefined && ids.includes(body.of)),
    )
    const entries = [...ids, ...photos.map(({ id }) => id)]
    if (facts.life.startedAt === null && (last === undefined || photos.length === 0))
      return notYet('The bay is not laid yet.', entries)
    if (last !== undefined && !last.body.complete)
      return notMet(`Missing or bridged: ${last.body.missingAt ?? 'place not said'}.`, entries)
    if (photos.length === 0) {
      return notMet(
        last === undefined
          ? 'Nobody recorded the strip, and no photo shows it.'
          : 'It was recorded as complete, but no photo shows it.',
        entries,
      )
    }
    const sides = cleanOutline(story.bay.body.outline).length
    const shown = `${counted(photos.length, 'photo')} for ${sides} sides`
    if (last === undefined)
      return notKnown(`${shown}, but nobody recorded whether the strip is complete.`, entries)
    return photos.length >= sides
      ? met(`${shown}; recorded as complete.`, entries)
      : notKnown(`${shown}: whether every side is shown, nobody can tell.`, entries)
  },
}

const walkedDays = 7
/** Somebody who looks on the morning after may still speak for the day before. Our judgement. */
const lookedLaterDays = 1

/** C8: who went over the young screed, or who says that nobody did. */
export const trafficWritten: Requirement = {
  id: 'C8',
  title: 'Traffic',
  asks: 'For the first seven days the record says what went over the bay, or who confirms that nothing did.',
  whatToDo: 'Write down what was seen, or let whoever held the keys confirm that nothing was.',
  record: 'no-traffic-confirmed',
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts }) => {
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const t0 = facts.life.t0!
    const until = t0 + walkedDays * dayMs
    const seen = facts.traffic.filter(({ at }) => at >= t0 && at <= until)
    if (seen.length > 0)
      return met(
        `${counted(seen.length, 'crossing')} written down in the first ${walkedDays} days.`,
        seen.map(({ entry }) => entry.id),
      )
    const confirmed = entriesOf(facts.story, 'no-traffic-confirmed').filter(
      ({ happenedAt }) => happenedAt >= t0 && happenedAt <= until + lookedLaterDays * dayMs,
    )
    const entries = confirmed.map(({ id }) => id as string)
    const last = confirmed.at(-1)
    if (last !== undefined && last.happenedAt >= until - (lookedLaterDays * dayMs) / 2)
      return met(`None, confirmed by ${last.body.heldBy}.`, entries)
    if (facts.asOf < until + lookedLaterDays * dayMs)
      return notYet(`The first ${walkedDays} days have not passed.`, entries)
    if (last === undefined) return notMet(`Nothing was written about the first ${walkedDays} days.`)
    return notKnown(
      `Confirmed up to day ${rounded(daysBetween(t0, last.happenedAt), 1)}; nobody wrote about the days after it.`,
      entries,
    )
  },
}

export const care: readonly Requirement[] = [climateRead, curedLongEnough, edgeStripShown, trafficWritten]
