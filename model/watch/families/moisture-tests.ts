import { entriesOf } from '#model/record/story.ts'
import { moistureMethods } from '#model/record/words.ts'
import { type Finding, keepsLimit, limitText, type RuleId, scaleOfMethod } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import type { BayFacts } from '../facts/index.ts'
import { countingTests, type JudgedTest, judgedTests, pointsNeeded } from '../facts/moisture.ts'
import { dayMs, rounded } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

const instrumentRules: readonly RuleId[] = ['test.probeCheckDays', 'test.saltRhLeast', 'test.saltRhMost']
const climateRules: readonly RuleId[] = [
  'test.heatingOffHours',
  'test.conditioningHours',
  'test.roomLeastC',
  'test.roomMostC',
  'test.roomMovedK',
  'test.floorAirK',
  'test.emissionAirLeastC',
  'test.emissionAirMostC',
  'test.emissionRhLeast',
  'test.emissionRhMost',
]
/** Of the climate, what only asks to be looked at: practice, not the method. */
const remarkRules: readonly RuleId[] = [
  'test.roomLeastC',
  'test.roomMostC',
  'test.roomMovedK',
  'test.floorAirK',
]

type Concern = 'instrument' | 'climate' | 'place' | 'method'

/** What a finding of a test is about. */
function concernOf({ what, limit }: Finding, { rules }: BayFacts): Concern {
  const by = (ids: readonly RuleId[]) => limit !== null && ids.some((id) => rules.limits[id] === limit)
  if (by(instrumentRules) || what.startsWith('Certificate') || what.startsWith('Instrument'))
    return 'instrument'
  if (by(climateRules)) return 'climate'
  return what.startsWith('Test point') ? 'place' : 'method'
}

/** A finding that takes the proof away: a broken limit, a missing value, or a plain no. */
function spoils({ what, value, limit }: Finding): boolean {
  if (what === 'Result') return false
  if (limit !== null) return value === null || (typeof value === 'number' && !keepsLimit(value, limit))
  return value === null || (value === 'no' && what !== 'Heating and driers in use')
}

function findingEvidence({ entry, at }: JudgedTest, { what, value, limit }: Finding): Evidence {
  const shown = value === null ? 'not recorded' : value
  return shows(
    entry.id,
    limit === null ? what : `${what} (${limitText(limit)})`,
    shown,
    limit?.unit ?? '',
    at,
  )
}

const accepting = ({ entry }: JudgedTest) => scaleOfMethod[entry.body.method] !== null

function testsOf(facts: BayFacts): JudgedTest[] {
  return judgedTests(facts, facts.story.zone.body.covering).filter(accepting)
}

/**
 * Tests at one point by one method that were spoilt in one way: an alert from the first of them until a valid test takes
 * their place. Every further spoilt test asks for its own answer.
 */
function spellsAtPoints(
  tests: readonly JudgedTest[],
  evidenceOf: (test: JudgedTest) => { evidence: Evidence[]; limit: Raised['limit'] } | null,
  rest: Pick<Raised, 'severity' | 'whatToDo'>,
  endsWith: (test: JudgedTest) => boolean,
): Raised[] {
  const open = new Map<string, Raised>()
  const found: Raised[] = []
  for (const test of tests) {
    const key = `${test.entry.body.method} ${test.point}`
    const lasting = open.get(key)
    const spoilt = evidenceOf(test)
    if (spoilt !== null) {
      const point = shows(test.entry.id, 'Test point', test.entry.body.point, '', test.at)
      if (lasting === undefined) {
        const raised = {
          ...rest,
          limit: spoilt.limit,
          since: test.at,
          until: null,
          evidence: [point, ...spoilt.evidence],
        }
        open.set(key, raised)
        found.push(raised)
      } else {
        lasting.gradedAt = test.at
        lasting.evidence = [...lasting.evidence, point, ...spoilt.evidence]
      }
    } else if (lasting !== undefined && endsWith(test)) {
      lasting.until = test.at
      open.delete(key)
    }
  }
  return found
}

/** Tests that prove nothing for one kind of reason. */
function invalidFor(facts: BayFacts, concern: Concern, whatToDo: string): Raised[] {
  const spoiltBy = (test: JudgedTest) => {
    const spoiling = test.acceptance.findings.filter(
      (finding) =>
        spoils(finding) &&
        concernOf(finding, facts) === concern &&
        !remarkRules.some((id) => facts.rules.limits[id] === finding.limit),
    )
    const contradicted = concern === 'climate' ? test.contradictions : []
    if (spoiling.length + contradicted.length === 0) return null
    return {
      limit: spoiling[0]?.limit ?? undefined,
      evidence: [
        ...spoiling.map((finding) => findingEvidence(test, finding)),
        ...contradicted.map((text) => shows(test.entry.id, 'Against it', text, '', test.at)),
      ],
    }
  }
  return spellsAtPoints(testsOf(facts), spoiltBy, { severity: 'not proven', whatToDo }, ({ valid }) => valid)
}

const tooShort: AlertRule = {
  id: 'A38',
  family: 'moisture tests',
  title: 'Invalid test: not carried out as its method asks',
  limits: ['test.boxHours', 'test.settleRh'],
  raise: (facts) =>
    invalidFor(
      facts,
      'method',
      'Leave it on, or test again as the method asks; until then nothing is proven.',
    ),
}

const instrument: AlertRule = {
  id: 'A39',
  family: 'moisture tests',
  title: 'Invalid test: instrument',
  limits: ['test.probeCheckDays', 'test.saltRhLeast', 'test.saltRhMost'],
  raise: (facts) => invalidFor(facts, 'instrument', 'Check the instrument over salt and test again.'),
}

const climate: AlertRule = {
  id: 'A40',
  family: 'moisture tests',
  title: 'Invalid test: heating, driers or climate',
  limits: ['test.heatingOffHours'],
  raise: (facts) => [
    ...invalidFor(facts, 'climate', 'Turn heating and driers off, wait, and test again.'),
    ...remarks(facts),
  ],
}

/** A valid test in an unsteady room: it counts, and somebody should say why. */
function remarks(facts: BayFacts): Raised[] {
  const oddIn = (test: JudgedTest) => {
    const odd = test.acceptance.findings.filter(
      (finding) =>
        finding.value !== null &&
        spoils(finding) &&
        remarkRules.some((id) => facts.rules.limits[id] === finding.limit),
    )
    if (odd.length === 0 || !test.valid) return null
    return {
      limit: odd[0]!.limit ?? undefined,
      evidence: odd.map((finding) => findingEvidence(test, finding)),
    }
  }
  const whatToDo = 'Say why the reading can stand, or test again in a steady room.'
  return spellsAtPoints(testsOf(facts), oddIn, { severity: 'watch', whatToDo }, ({ valid }) => valid)
}

const places: AlertRule = {
  id: 'A41',
  family: 'moisture tests',
  title: 'Too few places tested, or not the wettest',
  limits: ['test.pointsFirst', 'test.pointsNextAreaM2'],
  raise: (facts) => {
    const tests = testsOf(facts)
    const counting = countingTests(tests, facts.story.zone.body.moistureMethod)
    const needed = pointsNeeded(facts)
    const wettest = counting.some(({ entry }) => entry.body.wettestPoint === true)
    const first = counting.toSorted((a, b) => a.at - b.at)[0]
    const outside = invalidFor(facts, 'place', 'Test inside the bay that is to be released.')
    if (first === undefined || (counting.length >= needed && wettest)) return outside
    return [
      ...outside,
      {
        severity: 'not proven',
        since: tests.find(({ valid }) => valid)!.at,
        gradedAt: first.at,
        until: null,
        evidence: [
          shows(first.entry.id, 'Places with a valid test', counting.length),
          shows(null, 'Places needed', needed),
          ...(wettest ? [] : [shows(null, 'Wettest place', 'no test says that it stands there')]),
        ],
        whatToDo: 'Add places: the wettest by meter, the coldest, the last laid, the deepest.',
      },
    ]
  },
}

const wrongMethod: AlertRule = {
  id: 'A42',
  family: 'moisture tests',
  title: 'Accepted on the wrong test',
  limits: [],
  source: 'Survey meters are not an acceptance: German trade bodies (quoted second-hand)',
  raise: (facts) => {
    const { story } = facts
    const method = story.zone.body.moistureMethod
    const tests = judgedTests(facts, story.zone.body.covering)
    const decisions = [
      ...entriesOf(story, 'bay-decided').filter(({ body }) => body.decision === 'accepted'),
      ...entriesOf(story, 'hold-point-released').filter(
        ({ body }) => body.point === 'moisture test' && body.decision === 'released',
      ),
      ...entriesOf(story, 'covering-laid'),
    ].sort((a, b) => a.happenedAt - b.happenedAt)
    for (const decision of decisions) {
      const before = tests.filter(({ at }) => at <= decision.happenedAt)
      const others = before.filter(({ entry }) => entry.body.method !== method)
      if (others.length === 0 || before.some((test) => test.valid && test.entry.body.method === method))
        continue
      return [
        {
          severity: 'not proven',
          since: decision.happenedAt,
          until: tests.find((test) => test.valid && test.entry.body.method === method)?.at ?? null,
          evidence: [
            shows(
              decision.id,
              'Decided',
              'without a valid test by the agreed method',
              '',
              decision.happenedAt,
            ),
            shows(null, 'Agreed', moistureMethods[method]),
            ...others.map(({ entry, at }) =>
              shows(entry.id, 'Tested by', moistureMethods[entry.body.method], '', at),
            ),
          ],
          whatToDo: 'Test by the agreed method; a limit of one test says nothing about another.',
        },
      ]
    }
    return []
  },
}

/** Tests that were done well, even where these rules have no limit for them: they show a trend. */
function trendTests(facts: BayFacts): Map<string, JudgedTest[]> {
  const byPoint = new Map<string, JudgedTest[]>()
  for (const test of testsOf(facts)) {
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
    const tests = testsOf(facts)
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

export const moistureTests: readonly AlertRule[] = [
  tooShort,
  instrument,
  climate,
  places,
  wrongMethod,
  rewetting,
  stalled,
  stale,
]
