import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, scaleOfMethod } from '#model/rules/index.ts'
import type { BayFacts } from '../facts/index.ts'
import { acceptanceTests, type JudgedTest } from '../facts/moisture.ts'
import { dayMs, rounded } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** Tests that were done well, even where these rules have no limit for them: they show a trend. */
function trendTests(facts: BayFacts): Map<string, JudgedTest[]> {
  const byPoint = new Map<string, JudgedTest[]>()
  for (const test of acceptanceTests(facts)) {
    const { acceptance, limit, contradictions } = test
    const onlyLimitMissing =
      limit === null && acceptance.verdict === 'not known' && acceptance.reasons.length === 1
    if (acceptance.value === null || contradictions.length > 0 || !(test.valid || onlyLimitMissing)) continue
    const key = `${test.entry.body.method} ${test.point}`
    byPoint.set(key, [...(byPoint.get(key) ?? []), test])
  }
  return byPoint
}

const rewetting: AlertRule = {
  id: 'A43',
  family: 'moisture tests',
  title: 'Getting wetter again',
  limits: ['drying.rewetRh', 'drying.rewetCarbide'],
  raise: (facts) => {
    const wettings = entriesOf(facts.story, 'wet-event-noted')
    return [...trendTests(facts).values()].flatMap((tests): Raised[] => {
      const scale = scaleOfMethod[tests[0]!.entry.body.method]
      const id = scale === 'carbide' || scale === 'mass' ? 'drying.rewetCarbide' : 'drying.rewetRh'
      if (scale === 'emission') return []
      const limit = facts.rules.limits[id]
      const found: Raised[] = []
      let driest = tests[0]!
      let open: Raised | null = null
      for (const test of tests.slice(1)) {
        const rise = test.acceptance.value! - driest.acceptance.value!
        if (!keepsLimit(rounded(rise, 6), limit)) {
          if (open === null) {
            open = {
              severity: 'stop',
              limit: id,
              since: test.at,
              until: null,
              evidence: [
                shows(
                  driest.entry.id,
                  'Driest before',
                  driest.acceptance.value!,
                  driest.acceptance.unit,
                  driest.at,
                ),
                shows(
                  test.entry.id,
                  `Now at point ${test.entry.body.point}`,
                  test.acceptance.value!,
                  test.acceptance.unit,
                  test.at,
                ),
                ...wettings
                  .filter(({ happenedAt }) => happenedAt > driest.at && happenedAt <= test.at)
                  .map((wet) => shows(wet.id, 'Wetting noted', wet.body.what, '', wet.happenedAt)),
              ],
              whatToDo: 'Find the leak and stop it; the drying starts again from here.',
            }
            found.push(open)
          }
        } else if (open !== null) {
          open.until = test.at
          open = null
        }
        if (test.acceptance.value! < driest.acceptance.value!) driest = test
      }
      return found
    })
  },
}

/** Three readings within less than this show noise and not a trend. Our judgement. */
const trendMs = 7 * dayMs

const stalled: AlertRule = {
  id: 'A44',
  family: 'moisture tests',
  title: 'Drying has stalled',
  limits: ['drying.stallRhPerWeek'],
  raise: (facts) =>
    [...trendTests(facts).values()].flatMap((tests): Raised[] => {
      if (!['rh', 'sample-rh'].includes(scaleOfMethod[tests[0]!.entry.body.method] ?? '')) return []
      const found: Raised[] = []
      let open: Raised | null = null
      for (let i = 2; i < tests.length; i++) {
        const three = tests.slice(i - 2, i + 1)
        const last = three[2]!
        if (last.at - three[0]!.at < trendMs) continue
        const perWeek = rounded(-slopePerWeek(three), 6)
        const wet = last.acceptance.verdict === 'fail'
        if (wet && !keepsLimit(perWeek, facts.rules.limits['drying.stallRhPerWeek'])) {
          open ??= {
            severity: 'act',
            since: last.at,
            until: null,
            evidence: [],
            whatToDo: 'Change the air, not the patience: dry it, warm it, move it.',
          }
          if (!found.includes(open)) found.push(open)
          open.evidence = [
            shows(null, 'Drying', perWeek, '% RH/week', last.at),
            ...three.map(({ entry, acceptance, at }) =>
              shows(entry.id, `Point ${entry.body.point}`, acceptance.value!, acceptance.unit, at),
            ),
          ]
        } else if (open !== null) {
          open.until = last.at
          open = null
        }
      }
      return found
    }),
}

/** The least-squares slope [per week]. */
function slopePerWeek(tests: readonly JudgedTest[]): number {
  const weeks = tests.map(({ at }) => (at - tests[0]!.at) / (7 * dayMs))
  const values = tests.map(({ acceptance }) => acceptance.value!)
  const meanX = weeks.reduce((sum, x) => sum + x, 0) / weeks.length
  const meanY = values.reduce((sum, y) => sum + y, 0) / values.length
  const over = weeks.reduce((sum, x, i) => sum + (x - meanX) * (values[i]! - meanY), 0)
  return over / weeks.reduce((sum, x) => sum + (x - meanX) ** 2, 0)
}

const stale: AlertRule = {
  id: 'A46',
  family: 'moisture tests',
  title: 'Test stale',
  limits: ['test.ageDays'],
  raise: (facts) => {
    const { story, rules, asOf, life } = facts
    const tests = acceptanceTests(facts)
    const valid = tests.filter(
      (test) => test.valid && test.entry.body.method === story.zone.body.moistureMethod,
    )
    const days = rules.limits['test.ageDays'].value
    const wettings = entriesOf(story, 'wet-event-noted')
    const until = life.coveredAt ?? asOf
    return valid.flatMap((test, i): Raised[] => {
      const next = valid.slice(i + 1).find(({ at }) => at > test.at)
      // Tests of one round share their fate: only the last of them is spoken of.
      if (next !== undefined && next.at - test.at < dayMs) return []
      const wet = wettings.find(({ happenedAt }) => happenedAt > test.at && happenedAt <= until)
      const staleAt = Math.min(test.at + days * dayMs, wet?.happenedAt ?? Number.POSITIVE_INFINITY)
      if (until <= staleAt || (next !== undefined && next.at <= staleAt)) return []
      return [
        {
          severity: 'not proven',
          since: staleAt,
          until: next?.at ?? life.coveredAt,
          evidence: [
            shows(
              test.entry.id,
              'Last valid test',
              test.acceptance.value ?? 'no value',
              test.acceptance.unit,
              test.at,
            ),
            ...(wet === undefined ? [] : [shows(wet.id, 'Wetted since', wet.body.what, '', wet.happenedAt)]),
          ],
          whatToDo: 'Test again before the covering.',
        },
      ]
    })
  },
}

/** What the tests of a bay say one after the other, each of them well made. */
export const moistureCourse: readonly AlertRule[] = [rewetting, stalled, stale]
