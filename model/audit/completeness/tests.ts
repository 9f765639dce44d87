import { checkSoundness, soundnessPoints } from '#model/checks/index.ts'
import { daysByRule } from '#model/drying/index.ts'
import { dryingStart, regularity } from '#model/readiness/conditions/body.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { entriesOf } from '#model/record/story.ts'
import { moistureMethods } from '#model/record/words.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { countingTests, type JudgedTest, judgedTests, pointsNeeded } from '#model/watch/facts/moisture.ts'
import { dayMs, daysBetween, rounded } from '#model/watch/facts/time.ts'
import { releaseOf } from '../release.ts'
import {
  beforeLaying,
  counted,
  type Finding,
  met,
  notKnown,
  notMet,
  notYet,
  type Requirement,
} from './requirement.ts'

/** C10: the drop-weight test at enough points, one of them where floors break first. */
export const soundnessTested: Requirement = {
  id: 'C10',
  title: 'Soundness',
  asks: 'The drop-weight test was made at enough points, one of them at a doorway or a joint, and kept its limit.',
  whatToDo: 'Test the missing points, and say of each where it stands.',
  record: 'soundness-tested',
  mayBeAnswered: true,
  source:
    'BS 8204-1 Annex D: three points for each 20 m²; that one stands at a doorway or joint is common practice',
  provenance: 'quoted second-hand',
  find: ({ facts }) => beforeLaying(facts) ?? soundnessFinding(facts),
}

function soundnessFinding(facts: BayFacts): Finding {
  const { story, rules, areaM2, life, asOf } = facts
  const tests = entriesOf(story, 'soundness-tested').map((entry) => ({ entry, ...judged(facts, entry) }))
  const age = rules.limits['soundness.ageDays']
  if (tests.length === 0) {
    const days = daysBetween(life.t0!, asOf)
    // A week to come round and test it once it is old enough.
    return days < age.value + 7 && life.coveredAt === null
      ? notYet(`${counted(Math.floor(days), 'day')} old; tested from ${age.value} days on.`)
      : notMet('No drop-weight test was made.')
  }
  const valid = tests.filter(({ verdict }) => verdict === 'pass' || verdict === 'fail')
  const entries = tests.map(({ entry }) => entry.id as string)
  if (valid.length === 0)
    return notMet('No drop-weight test was made as its method demands: weight, blows or age.', entries)
  const last = valid.at(-1)!
  const deepest = Math.max(...last.entry.body.points.map(({ indentationMm }) => indentationMm))
  if (last.verdict === 'fail')
    return notMet(`The last test failed: ${deepest} mm at the deepest (${last.limit}).`, entries)
  const since = valid.slice(valid.findLastIndex(({ verdict }) => verdict === 'fail') + 1)
  const points = since.flatMap(({ entry }) => entry.body.points)
  const needed = soundnessPoints({ areaM2, rules })
  const said = `${points.length} of ${needed} points, ${deepest} mm at the deepest (${last.limit})`
  if (points.length < needed) return notMet(`${said}.`, entries)
  if (points.some(({ place }) => place === 'doorway' || place === 'joint'))
    return met(`${said}, a doorway or joint among them.`, entries)
  return points.some(({ place }) => place === undefined)
    ? notKnown(`${said}; whether one stands at a doorway or joint was not written down.`, entries)
    : notMet(`${said}; none stands at a doorway or joint.`, entries)
}

function judged({ story, rules, life }: BayFacts, { body, happenedAt }: StoryEntryOf<'soundness-tested'>) {
  const { verdict, findings } = checkSoundness({
    category: story.zone.body.soundness,
    construction: story.bay.body.construction,
    weightKg: Number(body.weightKg),
    blows: body.blows,
    ageDays: Math.max(0, daysBetween(life.t0 ?? happenedAt, happenedAt)),
    indentationsMm: body.points.map(({ indentationMm }) => indentationMm),
    rules,
  })
  const limit = findings.find(({ what }) => what.startsWith('Indentation'))?.limit
  return { verdict, limit: limit === undefined || limit === null ? '' : limitText(limit) }
}

/** C11: flatness, looked at once the edges have had time to curl. */
export const flatnessChecked: Requirement = {
  id: 'C11',
  title: 'Flatness',
  asks: 'Flatness was checked after four weeks of drying, and keeps its class.',
  whatToDo: 'Check it with the straightedge of the rule, once the edges have had time to curl.',
  record: 'regularity-checked',
  mayBeAnswered: true,
  source: 'BS 8204-1 Table 5 and Annex C; the weeks of drying are our judgement',
  provenance: 'quoted second-hand',
  find: ({ facts }) => {
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const { state, because, entries } = regularity(facts)
    if (state === 'met') return met(because, entries)
    if (state === 'not met') return notMet(because, entries)
    const from = dryingStart(facts)
    const needed = facts.rules.limits['regularity.dryingDays'].value
    const drying = from === null ? null : daysBetween(from, facts.asOf)
    if (facts.life.coveredAt === null && (drying === null || drying < needed + 7))
      return notYet(because, entries)
    return entries.length === 0 ? notMet(because) : notKnown(because, entries)
  },
}

/** C12: a test that proves something, in enough places, and not stale when the bay was let go. */
export const moistureProven: Requirement = {
  id: 'C12',
  title: 'Moisture',
  asks: 'Valid moisture tests by the agreed method, in enough places, within the limit and fresh at the release.',
  whatToDo: 'Test by the agreed method as it demands. A forecast or a meter never stands in for it.',
  record: 'moisture-read',
  mayBeAnswered: false,
  source:
    'BS 8203: tested before the covering; the number of places after ASTM F2170; the age is our judgement',
  provenance: 'quoted second-hand',
  find: ({ facts }) => beforeLaying(facts) ?? moistureFinding(facts),
}

function moistureFinding(facts: BayFacts): Finding {
  const { story, rules, asOf } = facts
  const { covering, moistureMethod } = story.zone.body
  const until = releaseOf(story)?.at ?? asOf
  const made = judgedTests(facts, covering).filter(({ at }) => at <= until)
  const counting = countingTests(made, moistureMethod)
  if (counting.length === 0) return unproven(facts, made)
  const entries = ids(counting)
  const limit = counting[0]!.limit
  const worst = counting.reduce((a, b) => ((b.acceptance.value ?? 0) > (a.acceptance.value ?? 0) ? b : a))
  const reading = `${rounded(worst.acceptance.value ?? Number.NaN, 2)} ${worst.acceptance.unit} at ${worst.entry.body.point}${limit === null ? '' : ` (${limitText(limit)})`}`
  if (worst.acceptance.verdict !== 'pass') return notMet(`Too wet: ${reading}.`, entries)
  const needed = pointsNeeded(facts)
  if (counting.length < needed)
    return notMet(
      `${counting.length} of ${needed} places have a valid test; the wettest shows ${reading}.`,
      entries,
    )
  const oldest = Math.max(...counting.map(({ at }) => daysBetween(at, until)))
  const age = rules.limits['test.ageDays']
  const when = until === asOf ? 'now' : 'at the release'
  const said = `${counted(counting.length, 'valid test')} by the agreed method, the wettest ${reading}, the oldest ${rounded(oldest, 1)} days old ${when} (${limitText(age)})`
  return keepsLimit(oldest, age) ? met(`${said}.`, entries) : notMet(`${said}.`, entries)
}

function unproven({ story, life, asOf, open }: BayFacts, made: readonly JudgedTest[]): Finding {
  const { moistureMethod } = story.zone.body
  const agreed = `agreed is ${inSentence(moistureMethods[moistureMethod])}`
  const entries = ids(made)
  const last = made.findLast(({ entry }) => entry.body.method === moistureMethod)
  if (last !== undefined) {
    const reasons = [...last.contradictions, ...last.acceptance.reasons].join(' ')
    return last.acceptance.verdict === 'not known'
      ? notKnown(`What the last test demands is not written down: ${reasons}`, entries)
      : notMet(`The last test proves nothing: ${reasons}`, entries)
  }
  const other = made.at(-1)?.entry.body.method
  const because =
    other === undefined
      ? `Not tested yet; ${agreed}.`
      : `Tested only by ${inSentence(moistureMethods[other])}; ${agreed}.`
  const { screed, designThicknessMm } = story.bay.body
  const from = life.cementBound ? open.at(-1)?.from : life.t0
  const days = daysByRule({ thicknessMm: designThicknessMm, breakMm: screed === 'calcium sulfate' ? 40 : 50 })
  const early = from === undefined || from === null || asOf < from + days * dayMs
  return life.coveredAt === null && early ? notYet(because, entries) : notMet(because, entries)
}

function inSentence(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1)
}

const ids = (tests: readonly JudgedTest[]) => tests.map(({ entry }) => entry.id as string)

export const tests: readonly Requirement[] = [soundnessTested, flatnessChecked, moistureProven]
