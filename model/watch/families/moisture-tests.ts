import { entriesOf } from '#model/record/story.ts'
import { moistureMethods } from '#model/record/words.ts'
import { type Finding, keepsLimit, limitText, type RuleId } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import type { BayFacts } from '../facts/index.ts'
import {
  acceptanceTests,
  countingTests,
  type JudgedTest,
  judgedTests,
  pointsNeeded,
} from '../facts/moisture.ts'
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
  return spellsAtPoints(
    acceptanceTests(facts),
    spoiltBy,
    { severity: 'not proven', whatToDo },
    ({ valid }) => valid,
  )
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
  return spellsAtPoints(acceptanceTests(facts), oddIn, { severity: 'watch', whatToDo }, ({ valid }) => valid)
}

const places: AlertRule = {
  id: 'A41',
  family: 'moisture tests',
  title: 'Too few places tested, or not the wettest',
  limits: ['test.pointsFirst', 'test.pointsNextAreaM2'],
  raise: (facts) => {
    const tests = acceptanceTests(facts)
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

export const moistureTests: readonly AlertRule[] = [tooShort, instrument, climate, places, wrongMethod]
