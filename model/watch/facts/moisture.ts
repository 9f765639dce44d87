import {
  acceptMoisture,
  type MoistureAcceptance,
  moistureLimit,
  probeCount,
  type TestContext,
} from '#model/checks/index.ts'
import { InputError } from '#model/errors.ts'
import { areaOf } from '#model/movement/index.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import type { Covering, MoistureMethod } from '#model/record/words.ts'
import { type EffectiveRules, type Limit, scaleOfMethod } from '#model/rules/index.ts'
import { airTrace } from './air.ts'
import type { BayFacts } from './index.ts'
import { dryingByForce } from './protection.ts'
import { hourMs } from './time.ts'
import { lastIndexBy } from './trace.ts'
import { treatedAt } from './treated.ts'

/** A moisture test with the judgement on how it was done and what it shows. */
export interface JudgedTest {
  entry: StoryEntryOf<'moisture-read'>
  /** The test point as named, without the accidents of typing. */
  point: string
  at: number
  limit: Limit | null
  acceptance: MoistureAcceptance
  /** What the rest of the record says against it, as sentences. */
  contradictions: string[]
  valid: boolean
}

/** Tests already judged: ten rules and the verdict ask for the same ones. */
const judged = new WeakMap<BayFacts, Map<Covering, JudgedTest[]>>()

/** Returns every moisture test judged against the limit for a covering, oldest first. */
export function judgedTests(facts: BayFacts, covering: Covering): JudgedTest[] {
  const byCovering = judged.get(facts) ?? new Map<Covering, JudgedTest[]>()
  judged.set(facts, byCovering)
  const known = byCovering.get(covering)
  if (known !== undefined) return known
  const tests = entriesOf(facts.story, 'moisture-read').map((entry) => judge(facts, covering, entry))
  byCovering.set(covering, tests)
  return tests
}

function judge(facts: BayFacts, covering: Covering, entry: StoryEntryOf<'moisture-read'>): JudgedTest {
  const limit = limitFor(facts, covering, entry.body.method)
  const acceptance = accepted(facts, entry, limit)
  const contradictions = contradictionsOf(facts, entry)
  return {
    entry,
    point: entry.body.point.trim().toLowerCase(),
    at: entry.happenedAt,
    limit,
    acceptance,
    contradictions,
    valid: contradictions.length === 0 && ['pass', 'fail'].includes(acceptance.verdict),
  }
}

/** A test that cannot be used as it was recorded proves nothing, and must not silence the others. */
function accepted(
  facts: BayFacts,
  entry: StoryEntryOf<'moisture-read'>,
  limit: Limit | null,
): MoistureAcceptance {
  try {
    return acceptMoisture({ ...entry.body, at: entry.happenedAt }, limit, contextOf(facts, entry))
  } catch (cause) {
    if (!(cause instanceof InputError)) throw cause
    const reasons = [`It could not be judged: ${cause.message}`]
    return { verdict: 'not known', findings: [], value: null, unit: limit?.unit ?? '', reasons, cautions: [] }
  }
}

/** The limit by contract where it was agreed for this covering and this test, else that of the rules. */
export function limitFor(
  { story, rules }: BayFacts,
  covering: Covering,
  method: MoistureMethod,
): Limit | null {
  const zone = story.zone.body
  const ruled = moistureLimit({
    covering,
    method,
    screed: story.bay.body.screed,
    heated: zone.heated,
    ruleSet: rules,
  })
  if (zone.limitByContract === undefined || covering !== zone.covering) return ruled
  if (scaleOfMethod[method] === null || scaleOfMethod[method] !== scaleOfMethod[zone.moistureMethod])
    return ruled
  return {
    value: zone.limitByContract,
    unit: ruled?.unit ?? unitOf(method, rules),
    operator: '<=',
    source: 'Contract',
    provenance: 'company rule',
    reason: zone.limitReason,
  }
}

function unitOf(method: MoistureMethod, rules: EffectiveRules): string {
  const scale = scaleOfMethod[method]
  const same = rules.moisture.find((rule) => rule.scale === scale)
  if (same !== undefined) return same.limit.unit
  if (scale === 'carbide') return '% CM'
  if (scale === 'mass') return '% by mass'
  return scale === 'emission' ? 'lb/(1000 ft²·24 h)' : '% RH'
}

/** How many places this bay needs: its share of what the zone needs, and never none. */
export function pointsNeeded({ story, areaM2, rules }: BayFacts): number {
  const others = story.neighbours
    .filter(({ body }) => body.zone === story.bay.body.zone)
    .reduce((sum, { body }) => sum + areaOf(body.outline), 0)
  const zoneM2 = areaM2 + others
  return Math.max(1, Math.ceil((probeCount({ areaM2: zoneM2, rules }) * areaM2) / zoneM2 - 1e-9))
}

/** The last valid test of the agreed method at each point: the ones that count. */
export function countingTests(tests: readonly JudgedTest[], method: MoistureMethod): JudgedTest[] {
  const last = new Map<string, JudgedTest>()
  for (const test of tests) if (test.valid && test.entry.body.method === method) last.set(test.point, test)
  return [...last.values()]
}

function contextOf(facts: BayFacts, test: StoryEntryOf<'moisture-read'>): TestContext {
  const { story, rules, life, thickness } = facts
  const measured = thickness.filter(({ at }) => at <= test.happenedAt).map(({ mm }) => mm)
  const meanMm = measured.reduce((sum, mm) => sum + mm, 0) / measured.length
  const compound = facts.cover.some(
    ({ on }) => on.body.material === 'compound' && on.happenedAt <= test.happenedAt,
  )
  return {
    rules,
    screed: story.bay.body.screed,
    construction: story.bay.body.construction,
    heated: story.zone.body.heated,
    thicknessMm: measured.length > 0 ? meanMm : story.bay.body.designThicknessMm,
    finish: life.finish?.body.finish ?? null,
    instrument: instrumentOn(story, test),
    outlineM: story.bay.body.outline,
    surfaceSealed: compound || treatedAt(story, test.body, test.happenedAt, facts.areaM2),
    roomMovedK: roomMovedK(facts, test.happenedAt),
  }
}

/** The instrument as it was known on the day of the test. */
function instrumentOn(
  story: BayStory,
  { body, happenedAt }: StoryEntryOf<'moisture-read'>,
): TestContext['instrument'] {
  if (body.instrument === undefined) return null
  const added = entriesOf(story, 'instrument-added').find(({ subject }) => subject === body.instrument)
  const checks = entriesOf(story, 'instrument-checked').filter(
    (check) => check.subject === body.instrument && check.happenedAt <= happenedAt,
  )
  const certificate = checks.findLast((check) => check.body.check === 'certificate')
  const last = checks.findLast((check) => check.body.check !== 'certificate')
  return {
    certificateDueOn: certificate?.body.dueOn ?? added?.body.dueOn ?? null,
    lastCheck:
      last === undefined
        ? null
        : { at: last.happenedAt, foundPercent: last.body.foundPercent, passed: last.body.passed },
  }
}

function roomMovedK({ air }: BayFacts, at: number): number | null {
  const trace = airTrace(air, 'airC')
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (let i = lastIndexBy(trace.at, at); i >= 0 && trace.at[i]! >= at - 48 * hourMs; i--) {
    low = Math.min(low, trace.value[i]!)
    high = Math.max(high, trace.value[i]!)
  }
  return high > low ? high - low : null
}

/** Heating or driers that the record shows in the time in which they had to be off, whatever the test says. */
function contradictionsOf(facts: BayFacts, { body, happenedAt }: StoryEntryOf<'moisture-read'>): string[] {
  const setAt = body.setAt === undefined ? null : Date.parse(body.setAt)
  if (setAt === null || scaleOfMethod[body.method] === null) return []
  const hours = facts.rules.limits['test.heatingOffHours'].value
  if (hours <= 0) return []
  const from = setAt - hours * hourMs
  const keepWarmC = facts.rules.limits['heat.keepWarmMostC'].value
  const heat = facts.heating.find(
    ({ at, state, flowC }) =>
      state === 'running' && at > from && at <= happenedAt && (flowC ?? 0) > keepWarmC,
  )
  const drier = facts.protections.spans.find(
    (span) =>
      dryingByForce.includes(span.what) && span.from < happenedAt && (span.until ?? happenedAt) > from,
  )
  return [
    ...(heat === undefined
      ? []
      : [`The heating log shows ${heat.flowC} °C within ${hours} h before or during the test.`]),
    ...(drier === undefined
      ? []
      : [`The record shows a ${drier.what} on within ${hours} h before or during the test.`]),
  ]
}

/** The tests of a bay by which a covering can be agreed, judged for the covering of the contract. */
export function acceptanceTests(facts: BayFacts): JudgedTest[] {
  return judgedTests(facts, facts.story.zone.body.covering).filter(
    ({ entry }) => scaleOfMethod[entry.body.method] !== null,
  )
}
