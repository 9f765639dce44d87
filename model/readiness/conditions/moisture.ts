import { entriesOf } from '#model/record/story.ts'
import { type Covering, coverings, moistureMethods } from '#model/record/words.ts'
import { keepsLimit, type Limit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import {
  countingTests,
  type JudgedTest,
  judgedTests,
  limitFor,
  pointsNeeded,
} from '#model/watch/facts/moisture.ts'
import { daysBetween, rounded } from '#model/watch/facts/time.ts'
import type { Condition, GoverningTest } from '../verdict.ts'
import { met, notMet, unknown } from './condition.ts'

export interface MoistureAnswer {
  conditions: Condition[]
  limit: Limit | null
  governing: JudgedTest | null
}

/** Valid tests by the agreed method, in enough and the wettest places, within the limit, fresh, and dry since. */
export function moisture(facts: BayFacts, covering: Covering): MoistureAnswer {
  const method = facts.story.zone.body.moistureMethod
  const tests = judgedTests(facts, covering)
  const counting = countingTests(tests, method)
  const limit = limitFor(facts, covering, method)
  const fresh = counting.filter(({ at }) =>
    keepsLimit(daysBetween(at, facts.asOf), facts.rules.limits['test.ageDays']),
  )
  const governing = worstOf(counting)
  return {
    limit,
    governing,
    conditions: [
      validTest(facts, tests, counting),
      withinLimit(covering, limit, governing),
      enoughPlaces(facts, counting),
      wettestPlace(counting),
      freshEnough(facts, counting, fresh),
      dryingUndisturbed(facts, counting),
    ],
  }
}

/** The wettest reading that proves anything. */
function worstOf(tests: readonly JudgedTest[]): JudgedTest | null {
  const value = ({ acceptance }: JudgedTest) => acceptance.value ?? Number.NEGATIVE_INFINITY
  return tests.reduce<JudgedTest | null>(
    (worst, test) => (worst === null || value(test) > value(worst) ? test : worst),
    null,
  )
}

const ids = (tests: readonly JudgedTest[]) => tests.map(({ entry }) => entry.id)

function validTest(
  { story }: BayFacts,
  tests: readonly JudgedTest[],
  counting: readonly JudgedTest[],
): Condition {
  const name = 'Valid moisture test'
  const method = moistureMethods[story.zone.body.moistureMethod].toLowerCase()
  if (counting.length > 0)
    return met(name, `${counting.length} valid by ${method}, the agreed test.`, ids(counting))
  const last = tests.at(-1)
  if (last === undefined) return unknown(name, `No moisture test was made; agreed is ${method}.`)
  if (last.entry.body.method !== story.zone.body.moistureMethod) {
    const other = moistureMethods[last.entry.body.method].toLowerCase()
    return unknown(name, `The last test is by ${other}; agreed is ${method}.`, [last.entry.id])
  }
  const reasons = [...last.contradictions, ...last.acceptance.reasons].join(' ')
  return unknown(name, `The last test proves nothing: ${reasons}`, [last.entry.id])
}

function withinLimit(covering: Covering, limit: Limit | null, governing: JudgedTest | null): Condition {
  const name = 'Within the moisture limit'
  if (limit === null) {
    return unknown(
      name,
      `These rules have no limit for ${coverings[covering].toLowerCase()} by the agreed test; take it from the maker or the contract.`,
    )
  }
  if (governing === null) return unknown(name, `No valid reading to compare with ${limitText(limit)}.`)
  const { acceptance, entry } = governing
  const value = `${rounded(acceptance.value ?? Number.NaN, 2)} ${acceptance.unit}`
  const because = `Worst valid reading: ${value} at point ${entry.body.point} (${limitText(limit)}).`
  return acceptance.verdict === 'pass' ? met(name, because, [entry.id]) : notMet(name, because, [entry.id])
}

function enoughPlaces(facts: BayFacts, counting: readonly JudgedTest[]): Condition {
  const name = 'Enough places tested'
  const needed = pointsNeeded(facts)
  const because = `${counting.length} of ${needed} places have a valid test.`
  return counting.length >= needed ? met(name, because, ids(counting)) : unknown(name, because, ids(counting))
}

function wettestPlace(counting: readonly JudgedTest[]): Condition {
  const name = 'Wettest place tested'
  const wettest = counting.filter(({ entry }) => entry.body.wettestPoint === true)
  if (wettest.length > 0)
    return met(name, `Point ${wettest[0]!.entry.body.point} was chosen by survey.`, ids(wettest))
  return unknown(name, 'No valid test says that it stands at the wettest place.', ids(counting))
}

function freshEnough(
  facts: BayFacts,
  counting: readonly JudgedTest[],
  fresh: readonly JudgedTest[],
): Condition {
  const name = 'Test not stale'
  const limit = facts.rules.limits['test.ageDays']
  if (counting.length === 0) return unknown(name, 'There is no valid test.')
  const needed = pointsNeeded(facts)
  const oldest = Math.max(...counting.map(({ at }) => daysBetween(at, facts.asOf)))
  if (fresh.length >= needed && fresh.some(({ entry }) => entry.body.wettestPoint === true)) {
    return met(name, `${fresh.length} valid tests are fresh (${limitText(limit)}).`, ids(fresh))
  }
  return unknown(
    name,
    `The oldest is ${rounded(oldest, 1)} days old (${limitText(limit)}): repeat it.`,
    ids(counting),
  )
}

function dryingUndisturbed(facts: BayFacts, counting: readonly JudgedTest[]): Condition {
  const name = 'No wetting since the test'
  const wettings = entriesOf(facts.story, 'wet-event-noted')
  const running = wettings.filter(({ body }) => body.stopped === false)
  if (running.length > 0)
    return notMet(
      name,
      `The ${running.at(-1)!.body.what} has not been stopped.`,
      running.map(({ id }) => id),
    )
  if (counting.length === 0) return unknown(name, 'There is no valid test.')
  const firstTest = Math.min(...counting.map(({ at }) => at))
  const since = wettings.filter(({ happenedAt }) => happenedAt > firstTest)
  if (since.length === 0) return met(name, 'No wetting was noted since.', ids(counting))
  return unknown(
    name,
    `The ${since.at(-1)!.body.what} came after the test: repeat it.`,
    since.map(({ id }) => id),
  )
}

export function governingTest(test: JudgedTest, asOf: number): GoverningTest {
  const { entry, acceptance, at } = test
  return {
    entry: entry.id,
    point: entry.body.point,
    method: entry.body.method,
    value: acceptance.value ?? Number.NaN,
    unit: acceptance.unit,
    at,
    ageDays: daysBetween(at, asOf),
    check: { verdict: acceptance.verdict, findings: acceptance.findings },
  }
}
