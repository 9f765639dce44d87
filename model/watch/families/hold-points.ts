import { type HoldLink, holdChainFrom } from '#model/hold/chain.ts'
import { beforeLayingPoints } from '#model/hold/points.ts'
import { holdPoints as holdPointWords } from '#model/record/people.ts'
import type { BayFacts } from '../facts/index.ts'
import { isLaid } from '../facts/pour.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

/** The rules here ask for the same chain. */
const read = new WeakMap<BayFacts, HoldLink[]>()

function chainOf(facts: BayFacts): HoldLink[] {
  const known = read.get(facts) ?? holdChainFrom(facts)
  read.set(facts, known)
  return known
}

const binding = (facts: BayFacts) => chainOf(facts).filter(({ state }) => state !== 'does not apply')

/** One alert for what was passed at one moment: laying over three open points is one thing, not three. */
const wentPast: AlertRule = {
  id: 'A49',
  family: 'hold points',
  title: 'Went past a hold point',
  limits: [],
  source: 'Work waits at a hold point for a named release (common practice)',
  raise: (facts) =>
    binding(facts).flatMap((link): Raised[] => {
      const first = link.passedBy[0]
      if (first === undefined) return []
      const decidedAfter = link.at !== null && link.at > first.at
      const letGo = decidedAfter && (link.state === 'released' || link.state === 'waived')
      const name = holdPointWords[link.point]
      return [
        {
          severity: first.held ? 'stop' : 'act',
          nonconformance: true,
          since: first.at,
          until: letGo ? link.at : null,
          evidence: [
            shows(first.entry, `${name} had to wait for`, link.holdsBack, '', first.at),
            ...(link.decision === null
              ? []
              : [shows(link.decision, `${name} then`, link.state, '', link.at)]),
          ],
          whatToDo:
            'Look now what can still be seen. Release it, waive it with the reason, or hold it; keep this for the record.',
        },
      ]
    }),
}

/** Somebody looked and said no: before laying nothing may be laid; later it waits for an act. */
const held: AlertRule = {
  id: 'A50',
  family: 'hold points',
  title: 'Held at a hold point',
  limits: [],
  source: 'Work waits at a hold point for a named release (common practice)',
  raise: (facts) =>
    binding(facts).flatMap((link): Raised[] => {
      if (link.state !== 'held' || link.at === null || link.point === 'release') return []
      const stopsPour = beforeLayingPoints.includes(link.point) && !isLaid(facts)
      return [
        {
          severity: stopsPour ? 'stop' : 'act',
          since: link.at,
          until: null,
          evidence: [shows(link.decision, holdPointWords[link.point], link.saw ?? '', '', link.at)],
          whatToDo: `It waits: ${link.holdsBack.toLowerCase()}. Put right what was found, then let a named person release it.`,
        },
      ]
    }),
}

/** Let go by the person who did the work, before its time, or with nothing to show. */
const inDoubt: AlertRule = {
  id: 'A51',
  family: 'hold points',
  title: 'A release in doubt',
  limits: [],
  source: 'Who does the work does not release it (common practice)',
  raise: (facts) =>
    binding(facts).flatMap((link): Raised[] =>
      link.findings.length === 0 || link.at === null
        ? []
        : [
            {
              severity: 'watch',
              since: link.at,
              until: null,
              evidence: link.findings.map(({ what, entries }) =>
                shows(entries[0] ?? null, holdPointWords[link.point], what, '', link.at),
              ),
              whatToDo: 'Let a second person look, and write down what they saw.',
            },
          ],
    ),
}

export const holdPoints: readonly AlertRule[] = [wentPast, held, inDoubt]
