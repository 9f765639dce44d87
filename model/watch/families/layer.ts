import { leastThickness } from '#model/checks/index.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, type Limit } from '#model/rules/index.ts'
import { minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid, plannedAt } from '../facts/pour.ts'
import { minuteMs } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'
import { stopOrDefect } from './stop-or-defect.ts'

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

/** The layer itself: its lifts, its thickness and what lies in it. */
export const layer: readonly AlertRule[] = [thickLift, lateLift, thin, thickBonded, lowCover]
