import { leastThickness } from '#model/checks/index.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, type Limit } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import { minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid, plannedAt, preparedBy } from '../facts/pour.ts'
import { hourMs, minuteMs } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** STOP while it can still be put right; once the bay is laid, a non-conformance to answer. */
function stopOrDefect(facts: BayFacts): Pick<Raised, 'severity' | 'nonconformance'> {
  return isLaid(facts) ? { severity: 'act', nonconformance: true } : { severity: 'stop' }
}

const base: AlertRule = {
  id: 'A09',
  family: 'laying',
  title: 'Base not fit to lay on',
  limits: ['mix.baseTempLeastC', 'mix.slurryMinutes'],
  source: 'Trade practice (common practice)',
  raise: (facts) => {
    const { life, story, asOf } = facts
    const started = life.startedAt ?? Number.POSITIVE_INFINITY
    const surveys = entriesOf(story, 'base-surveyed').filter(({ happenedAt }) => happenedAt <= started)
    return surveys.flatMap((survey, i): Raised[] => {
      const faults = baseFaults(facts, survey)
      if (faults.length === 0) return []
      const next = surveys[i + 1]
      const slurryOnly = faults.every(({ what }) => what.startsWith('Bonding slurry'))
      const since = slurryOnly ? slurryDriesAt(facts, survey)! : survey.happenedAt
      if (since > asOf) return []
      return [
        {
          ...stopOrDefect(facts),
          since,
          until: next?.happenedAt ?? null,
          evidence: faults,
          whatToDo: isLaid(facts)
            ? 'Mark the bay for a hammer test and a pull-off test, and say what was laid on.'
            : 'Thaw, dry, clean or prepare it again; survey it again before the pour.',
        },
      ]
    })
  },
}

function slurryDriesAt({ rules }: BayFacts, { body }: StoryEntryOf<'base-surveyed'>): number | null {
  return body.slurryAt === undefined
    ? null
    : Date.parse(body.slurryAt) + rules.limits['mix.slurryMinutes'].value * minuteMs
}

function baseFaults(facts: BayFacts, survey: StoryEntryOf<'base-surveyed'>): Evidence[] {
  const { rules, life, story, asOf } = facts
  const { id, body, happenedAt } = survey
  const says = (what: string, value: string | number, unit = '') => shows(id, what, value, unit, happenedAt)
  const faults: Evidence[] = []
  if (body.baseC !== undefined && !keepsLimit(body.baseC, rules.limits['mix.baseTempLeastC'])) {
    faults.push(says('Base', body.baseC, '°C'))
  }
  if (!body.dry) faults.push(says('Standing water', 'yes'))
  if (!body.clean) faults.push(says('Clean and sound', 'no'))
  if (story.bay.body.construction !== 'bonded') return faults
  if (body.prepared !== 'mechanically prepared')
    faults.push(says('Preparation for a bonded screed', body.prepared))
  const dries = slurryDriesAt(facts, survey)
  const laidAt = life.startedAt ?? asOf
  if (dries !== null && laidAt > dries) {
    faults.push(says('Bonding slurry old', minutesBetween(Date.parse(body.slurryAt!), laidAt), 'min'))
  }
  return faults
}

const cementSand = ({ story }: BayFacts) => story.bay.body.screed === 'cement-sand'

/** Lifts with when they were laid, lowest first. */
function liftsOf({ story }: BayFacts) {
  return entriesOf(story, 'lift-laid')
    .map((entry) => ({
      entry,
      lift: entry.body.lift,
      from: Date.parse(entry.body.startedAt),
      until: Date.parse(entry.body.finishedAt),
    }))
    .sort((a, b) => a.lift - b.lift || a.from - b.from)
}

const thickLift: AlertRule = {
  id: 'A14',
  family: 'laying',
  title: 'Thick screed in one lift',
  limits: ['thickness.singleLift'],
  raise: (facts) => {
    const { life, rules, thickness, story } = facts
    if (!cementSand(facts) || !isLaid(facts) || life.t0 === null) return []
    const lifts = liftsOf(facts)
    if (lifts.length !== 1) return []
    const limit = rules.limits['thickness.singleLift']
    const thickest = thickness.reduce<(typeof thickness)[number] | null>(
      (best, point) => (best === null || point.mm > best.mm ? point : best),
      null,
    )
    const mm = Math.max(thickest?.mm ?? 0, lifts[0]!.entry.body.thicknessMm)
    if (keepsLimit(mm, limit)) return []
    return [
      {
        severity: 'act',
        since: life.t0,
        until: null,
        evidence: [
          shows(lifts[0]!.entry.id, 'Lifts recorded', 1, '', lifts[0]!.until),
          shows(thickest?.entry ?? lifts[0]!.entry.id, 'Thickest', mm, 'mm'),
          shows(null, 'Design thickness', story.bay.body.designThicknessMm, 'mm'),
        ],
        whatToDo:
          'Write down how it was compacted, add three soundness points, and take a core where one fails.',
      },
    ]
  },
}

const lateLift: AlertRule = {
  id: 'A15',
  family: 'laying',
  title: 'Second lift late or on a smooth one',
  limits: ['mix.liftGapMinutes'],
  source: 'BS 8204-1: the second layer follows at once (quoted second-hand)',
  raise: (facts) => {
    if (!cementSand(facts)) return []
    const { rules, asOf, story } = facts
    const limit = rules.limits['mix.liftGapMinutes']
    const lifts = liftsOf(facts)
    return lifts.flatMap((lower, i): Raised[] => {
      const upper = lifts.slice(i + 1).find(({ lift }) => lift === lower.lift + 1)
      const laidMm = lifts.slice(0, i + 1).reduce((sum, { entry }) => sum + entry.body.thicknessMm, 0)
      const expected = upper !== undefined || (!isLaid(facts) && laidMm < story.bay.body.designThicknessMm)
      if (!expected) return []
      const gap = minutesBetween(lower.until, upper?.from ?? asOf)
      const late = !keepsLimit(gap, limit)
      const smooth = upper !== undefined && lower.entry.body.roughened === false
      if (!late && !smooth) return []
      return [
        {
          severity: 'act',
          since: late ? lower.until + limit.value * minuteMs : upper!.from,
          until: null,
          evidence: [
            shows(lower.entry.id, `Lift ${lower.lift} finished, next begun after`, gap, 'min', lower.until),
            ...(smooth ? [shows(lower.entry.id, `Lift ${lower.lift} roughened`, 'no', '', lower.until)] : []),
            ...(upper === undefined ? [shows(null, `Lift ${lower.lift + 1}`, 'not begun')] : []),
          ],
          whatToDo:
            'Treat it as a cold joint: roughen and brush slurry on before the next lift, and test there.',
        },
      ]
    })
  },
}

/** The least thickness that holds here: of the rules, or the bay's own where that asks for more or only the maker knows. */
function leastMm({ story, rules }: BayFacts): Limit | null {
  const { body } = story.bay
  const ruled = leastThickness(
    { screed: body.screed, construction: body.construction, loading: story.zone.body.loading },
    rules,
  )
  if (body.minThicknessMm === undefined || (ruled !== null && ruled.value >= body.minThicknessMm))
    return ruled
  return {
    value: body.minThicknessMm,
    unit: 'mm',
    operator: '>=',
    source: 'The bay’s own least thickness',
    provenance: 'company rule',
  }
}

const thin: AlertRule = {
  id: 'A16',
  family: 'laying',
  title: 'Too thin',
  limits: [],
  raise: (facts) => {
    const limit = leastMm(facts)
    if (limit === null) return []
    const { story } = facts
    const measured = facts.thickness.filter(({ mm }) => !keepsLimit(mm, limit))
    if (measured.length > 0) {
      return [
        {
          ...stopOrDefect(facts),
          limit,
          since: measured[0]!.at,
          until: null,
          evidence: measured.map(({ entry, mm, at, x, y }) =>
            shows(
              entry,
              x === undefined || y === undefined ? 'Thickness' : `Thickness at ${x} / ${y} m`,
              mm,
              'mm',
              at,
            ),
          ),
          whatToDo: isLaid(facts)
            ? 'Ask the designer: accept it with a note, strengthen it, or take it out. Record the answer at the hold point.'
            : 'Raise the level, change the construction, or ask the designer before more is laid.',
        },
      ]
    }
    const survey = entriesOf(story, 'base-surveyed').at(-1)
    if (survey?.body.highSpotMm === undefined || isLaid(facts) || facts.thickness.length > 0) return []
    const left = story.bay.body.designThicknessMm - survey.body.highSpotMm
    if (keepsLimit(left, limit)) return []
    return [
      {
        severity: 'stop',
        limit,
        since: survey.happenedAt,
        until: null,
        evidence: [
          shows(survey.id, 'High spot of the base', survey.body.highSpotMm, 'mm', survey.happenedAt),
          shows(null, 'Thickness left there', left, 'mm'),
        ],
        whatToDo: 'Take the high spot down, raise the level or change the construction before the pour.',
      },
    ]
  },
}

const thickBonded: AlertRule = {
  id: 'A17',
  family: 'laying',
  title: 'Bonded screed too thick',
  limits: ['thickness.cement.bondedUpper'],
  raise: (facts) => {
    const { story, rules, thickness } = facts
    const { construction, screed } = story.bay.body
    if (construction !== 'bonded' || screed === 'calcium sulfate') return []
    const over = thickness.filter(({ mm }) => !keepsLimit(mm, rules.limits['thickness.cement.bondedUpper']))
    if (over.length === 0) return []
    return [
      {
        severity: 'watch',
        since: over[0]!.at,
        until: null,
        evidence: over.map(({ entry, mm, at }) => shows(entry, 'Thickness', mm, 'mm', at)),
        whatToDo: 'It may come loose: tap it hollow or sound on day 14 and again before the covering.',
      },
    ]
  },
}

const lowCover: AlertRule = {
  id: 'A18',
  family: 'laying',
  title: 'Little cover over pipes',
  limits: ['thickness.coverOverHeatingPipe', 'thickness.coverOverService'],
  raise: (facts) => {
    const { story, rules, life, asOf } = facts
    const { pipeCoverMm } = story.bay.body
    const id = story.zone.body.heated ? 'thickness.coverOverHeatingPipe' : 'thickness.coverOverService'
    if (pipeCoverMm === undefined || keepsLimit(pipeCoverMm, rules.limits[id])) return []
    return [
      {
        severity: 'act',
        limit: id,
        since: plannedAt(facts) ?? life.startedAt ?? life.plannedFor ?? asOf,
        until: null,
        evidence: [shows(null, 'Cover over pipes', pipeCoverMm, 'mm')],
        whatToDo: 'Let the designer decide, and write the decision down.',
      },
    ]
  },
}

const edgeStrip: AlertRule = {
  id: 'A19',
  family: 'laying',
  title: 'Edge strip missing',
  limits: ['bay.edgeStripMm'],
  raise: (facts) => {
    // A bonded screed moves with its base and is not parted from the walls.
    if (facts.story.bay.body.construction === 'bonded') return []
    const askedAt = preparedBy(facts)
    const fitted = entriesOf(facts.story, 'edge-strip-fitted')
    const last = fitted.at(-1)
    if (last?.body.complete === true) {
      const gap = fitted.findLast(({ body }) => !body.complete)
      return gap === undefined || isLaid(facts)
        ? []
        : [{ ...missingStrip(facts, gap), until: last.happenedAt }]
    }
    if (last !== undefined) return [missingStrip(facts, last)]
    if (askedAt === null) return []
    return [
      {
        severity: isLaid(facts) ? 'not proven' : 'stop',
        since: askedAt,
        until: null,
        evidence: [shows(null, 'Edge strip', 'nobody recorded it')],
        whatToDo: isLaid(facts)
          ? 'Look along the walls and write down what is there.'
          : 'Fit it along every wall and column, photograph it, and record it before the pour.',
      },
    ]
  },
}

function missingStrip(facts: BayFacts, { id, body, happenedAt }: StoryEntryOf<'edge-strip-fitted'>): Raised {
  return {
    ...stopOrDefect(facts),
    since: happenedAt,
    until: null,
    evidence: [
      shows(id, 'Edge strip missing or bridged', body.missingAt ?? 'place not said', '', happenedAt),
    ],
    whatToDo: isLaid(facts)
      ? 'Cut the edge free where it is bridged, or let the designer accept it.'
      : 'Fit it before the pour.',
  }
}

/** A fall of this much while the screed goes down is a leak and not the thermometer. Our judgement. */
const fellBar = 0.3

const pressure: AlertRule = {
  id: 'A23',
  family: 'laying',
  title: 'Heating pipes not proven tight',
  limits: [],
  source: 'EN 1264-4: leak test before and under pressure during laying (quoted second-hand)',
  raise: (facts) => {
    const { story, life } = facts
    if (!story.zone.body.heated) return []
    const whatToDo = 'Test the pipes and keep them under pressure while the screed goes down.'
    const found: Raised[] = []
    const tests = entriesOf(story, 'pipes-pressure-tested')
    const last = tests.at(-1)
    const askedAt = preparedBy(facts)
    if (last !== undefined && !last.body.passed) {
      found.push({
        severity: 'stop',
        since: last.happenedAt,
        until: null,
        evidence: [
          shows(last.id, 'Pressure test', 'failed', '', last.happenedAt),
          shows(last.id, 'From', last.body.startBar, 'bar'),
          shows(last.id, 'To', last.body.endBar, 'bar'),
        ],
        whatToDo,
      })
    } else if (last === undefined && askedAt !== null) {
      found.push({
        severity: 'stop',
        since: askedAt,
        until: null,
        evidence: [shows(null, 'Pressure test', 'nobody recorded one')],
        whatToDo,
      })
    }
    if (life.startedAt !== null && life.t0 !== null) {
      const around = { from: life.startedAt - 2 * hourMs, until: life.t0 + 2 * hourMs }
      const read = entriesOf(story, 'heating-noted').filter(
        ({ happenedAt, body }) =>
          body.pressureBar !== undefined && happenedAt >= around.from && happenedAt <= around.until,
      )
      const [first, end] = [read[0], read.at(-1)]
      if (
        first !== undefined &&
        end !== undefined &&
        first.body.pressureBar! - end.body.pressureBar! >= fellBar
      ) {
        found.push({
          severity: 'stop',
          since: end.happenedAt,
          until: null,
          evidence: [
            shows(first.id, 'Pressure before', first.body.pressureBar!, 'bar', first.happenedAt),
            shows(end.id, 'Pressure after', end.body.pressureBar!, 'bar', end.happenedAt),
          ],
          whatToDo: 'Find the leak before anything more is laid over it.',
        })
      }
    }
    return found
  },
}

export const laying: readonly AlertRule[] = [
  base,
  thickLift,
  lateLift,
  thin,
  thickBonded,
  lowCover,
  edgeStrip,
  pressure,
]
