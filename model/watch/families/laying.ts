import type { StoryEntryOf } from '#model/record/entry.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit } from '#model/rules/index.ts'
import type { Evidence } from '../alert.ts'
import { minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid, preparedBy } from '../facts/pour.ts'
import { hourMs, minuteMs } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'
import { layer } from './layer.ts'
import { stopOrDefect } from './stop-or-defect.ts'

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

/** What the screed is laid on and against, then the layer itself. */
export const laying: readonly AlertRule[] = [base, ...layer, edgeStrip, pressure]
