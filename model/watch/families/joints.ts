import { checkBay } from '#model/movement/index.ts'
import { entriesOf } from '#model/record/story.ts'
import { type Finding, keepsLimit } from '#model/rules/index.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid, plannedAt, preparedBy } from '../facts/pour.ts'
import { hourMs, hoursBetween } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** Large pours under a resilient covering are normal practice; these sizes only ask to be looked at. */
const sizeFindings = ['Area', 'Longest side', 'Longest to shortest side', 'Inward corners without an inducer']

function bayFindings(facts: BayFacts, heated: boolean): Finding[] {
  const { story, rules } = facts
  return checkBay({
    polygonM: story.bay.body.outline,
    heated,
    covering: story.zone.body.covering,
    screed: story.bay.body.screed,
    baseJoints: story.floor.body.baseJoints ?? [],
    joints: entriesOf(story, 'joint-formed').map(({ body }) => body),
    rules,
  }).findings.filter(
    ({ value, limit }) => typeof value === 'number' && limit !== null && !keepsLimit(value, limit),
  )
}

function since(facts: BayFacts): number {
  const { life, asOf } = facts
  return plannedAt(facts) ?? life.startedAt ?? life.plannedFor ?? asOf
}

const shape: AlertRule = {
  id: 'A20',
  family: 'joints',
  title: 'Bay too large or badly shaped',
  limits: [],
  raise: (facts) => {
    const { heated, covering } = facts.story.zone.body
    const strict = bayFindings(facts, heated).filter(({ what }) => sizeFindings.includes(what))
    const rigid = ['ceramic tile', 'natural stone', 'resin'].includes(covering)
    // The same sizes, asked of an unheated bay under a flexible covering, are worth a look and no more.
    const found =
      strict.length > 0 || heated || rigid || !facts.life.cementBound
        ? strict
        : bayFindings(facts, true).filter(({ what }) => sizeFindings.includes(what))
    const first = found[0]
    if (first === undefined) return []
    return [
      {
        severity: strict.length > 0 ? 'act' : 'watch',
        limit: first.limit ?? undefined,
        since: since(facts),
        until: null,
        evidence: found.map(({ what, value, limit }) =>
          shows(null, what, value ?? 'not known', limit?.unit ?? ''),
        ),
        whatToDo: 'Split the bay, or form an inducer where it narrows and at inward corners.',
      },
    ]
  },
}

const baseJoint: AlertRule = {
  id: 'A21',
  family: 'joints',
  title: 'Base joint without a joint above it',
  limits: ['bay.mirrorMm', 'bay.baseCrackMm'],
  raise: (facts) => {
    const askedAt = preparedBy(facts)
    if (askedAt === null) return []
    const found = bayFindings(facts, facts.story.zone.body.heated).filter(({ what }) =>
      what.startsWith('Base joint'),
    )
    if (found.length === 0) return []
    return [
      {
        severity: 'stop',
        since: askedAt,
        until: null,
        evidence: found.map(({ what, value }) => shows(null, what, value ?? 'not known', 'm')),
        whatToDo: isLaid(facts)
          ? 'Cut the joint through over the base joint before it cracks by itself.'
          : 'Mark and form a joint over the base joint.',
      },
    ]
  },
}

const lateJoint: AlertRule = {
  id: 'A22',
  family: 'joints',
  title: 'Inducer cut late or too shallow',
  limits: ['bay.inducerHours', 'bay.inducerDepthPercent'],
  raise: (facts) => {
    const { life, rules, story, thickness } = facts
    if (life.t0 === null) return []
    const t0 = life.t0
    const meanMm =
      thickness.length === 0
        ? story.bay.body.designThicknessMm
        : thickness.reduce((sum, { mm }) => sum + mm, 0) / thickness.length
    return entriesOf(story, 'joint-formed').flatMap(({ id, body, happenedAt }): Raised[] => {
      if (body.joint !== 'inducer') return []
      const hours = hoursBetween(t0, happenedAt)
      const late = !keepsLimit(hours, rules.limits['bay.inducerHours'])
      const percent = body.depthMm === undefined ? null : (100 * body.depthMm) / meanMm
      const shallow = percent !== null && !keepsLimit(percent, rules.limits['bay.inducerDepthPercent'])
      if (!late && !shallow) return []
      return [
        {
          severity: 'act',
          limit: late ? 'bay.inducerHours' : 'bay.inducerDepthPercent',
          since: happenedAt,
          until: null,
          evidence: [
            shows(id, 'Cut after', hours, 'h', t0 + hours * hourMs),
            shows(
              id,
              'Depth',
              percent ?? 'not recorded',
              percent === null ? '' : '% of thickness',
              happenedAt,
            ),
          ],
          whatToDo: shallow
            ? 'Cut it deeper, or expect the crack elsewhere.'
            : 'Look for cracks that came before it; expect the crack elsewhere.',
        },
      ]
    })
  },
}

export const joints: readonly AlertRule[] = [shape, baseJoint, lateJoint]
