import { readinessFrom } from '#model/readiness/readiness.ts'
import { entriesOf, storyAsOf } from '#model/record/story.ts'
import { factsOf } from '../facts/index.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** A covering on a bay that was not READY in that moment, whatever became of it later. */
export const coveredEarly: AlertRule = {
  id: 'A45',
  family: 'moisture tests',
  title: 'Covered before it was ready',
  limits: [],
  source:
    'Only a valid test releases a bay: BS 8203, BS 8201, BS 5325 as the rules in force say (quoted second-hand)',
  raise: ({ story, rules, life }): Raised[] => {
    const { covering, coveredAt } = life
    if (covering === null || coveredAt === null) return []
    const then = factsOf(storyAsOf(story, coveredAt), coveredAt, rules)
    const readiness = readinessFrom(then, story.zone.body.covering)
    if (readiness.verdict === 'ready') return []
    const waiver = entriesOf(story, 'bay-decided').findLast(
      ({ body, happenedAt }) => body.decision === 'waived' && happenedAt <= coveredAt,
    )
    return [
      {
        severity: 'act',
        nonconformance: true,
        since: coveredAt,
        until: null,
        evidence: [
          shows(covering.id, 'Covered with', covering.body.covering, '', coveredAt),
          shows(null, 'Verdict then', readiness.verdict.toUpperCase()),
          ...readiness.conditions
            .filter(({ state }) => state !== 'met')
            .map(({ name, because, entries }) => shows(entries[0] ?? null, name, because)),
          ...(waiver === undefined
            ? []
            : [
                shows(
                  waiver.id,
                  'Ordered before readiness',
                  waiver.body.reasons?.[0]?.reason ?? '',
                  '',
                  waiver.happenedAt,
                ),
              ]),
        ],
        whatToDo: 'Stop, keep the bay apart, and let a named person answer for it.',
      },
    ]
  },
}
