import { noOpenNonconformance, noOpenStop } from '#model/readiness/conditions/now.ts'
import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, type Limit, limitText } from '#model/rules/index.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { rounded } from '#model/watch/facts/time.ts'
import { lateEntriesOf, writtenFacts } from '../lateness.ts'
import { releaseOf } from '../release.ts'
import {
  beforeLaying,
  common,
  counted,
  doesNotApply,
  type Finding,
  judgement,
  met,
  notKnown,
  notMet,
  notYet,
  type Requirement,
} from './requirement.ts'

/** C13: nothing that says stop stands open. */
export const nothingOpen: Requirement = {
  id: 'C13',
  title: 'Nothing open',
  asks: 'No stop alert and no non-conformance stands open.',
  whatToDo: 'Answer the alert, or let somebody other than who raised the non-conformance close it.',
  record: 'nonconformance-closed',
  mayBeAnswered: false,
  ...common,
  find: ({ facts, alerts }) => {
    const stop = noOpenStop(alerts)
    const open = noOpenNonconformance(facts, alerts)
    const bad = [stop, open].filter(({ state }) => state !== 'met')
    if (bad.length > 0)
      return notMet(
        bad.map(({ because }) => because).join(' '),
        bad.flatMap(({ entries }) => entries),
      )
    const unjudged = alerts.filter(
      ({ severity, until, evidence }) =>
        severity === 'not proven' &&
        until === null &&
        evidence.some(({ what }) => what === 'Could not be judged'),
    )
    if (unjudged.length > 0)
      return notKnown(`Could not be judged: ${unjudged.map(({ title }) => title).join('; ')}.`)
    return met('No stop alert and no non-conformance stands open.', [...stop.entries, ...open.entries])
  },
}

/** Fewer words are a tick and no answer. */
const leastWords = 3

/** C14: an answer says what was done. */
export const answersSaySomething: Requirement = {
  id: 'C14',
  title: 'Answers',
  asks: 'Every alert that was answered was answered by a sentence.',
  whatToDo: 'Correct the answer so that it says what was done, or why it can stand.',
  record: 'alert-answered',
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts: { story } }) => {
    const answers = entriesOf(story, 'alert-answered')
    if (answers.length === 0) return doesNotApply('No alert of this bay was answered.')
    const empty = answers.filter(({ body }) => body.answer.trim().split(/\s+/).length < leastWords)
    const entries = answers.map(({ id }) => id as string)
    return empty.length === 0
      ? met(`${counted(answers.length, 'answer')}, each a sentence.`, entries)
      : notMet(
          `${empty.length} of ${counted(answers.length, 'answer')} say nothing: ${empty.map(({ body }) => `“${body.answer}”`).join(', ')}.`,
          empty.map(({ id }) => id),
        )
  },
}

/** C15: four eyes. */
export const twoPeople: Requirement = {
  id: 'C15',
  title: 'Two people',
  asks: 'Whoever tested the bay did not let it go as well.',
  whatToDo: 'Let somebody else look at the tests and decide again.',
  record: 'hold-point-released',
  mayBeAnswered: true,
  ...common,
  find: ({ facts }) => beforeLaying(facts) ?? pairFinding(facts),
}

function pairFinding({ story }: BayFacts): Finding {
  const moisture = entriesOf(story, 'moisture-read').filter(({ body }) => body.method !== 'electrical survey')
  const soundness = entriesOf(story, 'soundness-tested')
  const released = entriesOf(story, 'hold-point-released').filter(({ body }) => body.decision !== 'held')
  const release = releaseOf(story)
  const pairs = [
    ...released.flatMap((decision) => {
      const tested = { 'moisture test': moisture, soundness }[decision.body.point as string] ?? []
      return tested.map((test) => ({
        test,
        decision: { id: decision.id as string, person: decision.person as string },
      }))
    }),
    ...(release === null
      ? []
      : [...moisture, ...soundness].map((test) => ({
          test,
          decision: { id: release.entry, person: release.person },
        }))),
  ]
  const same = pairs.filter(({ test, decision }) => test.person === decision.person)
  const entries = pairs.flatMap(({ test, decision }) => [test.id as string, decision.id])
  if (same.length > 0) {
    return notMet(
      `${counted(new Set(same.map(({ test }) => test.id)).size, 'test')} let go by the person who made it.`,
      same.flatMap(({ test, decision }) => [test.id as string, decision.id]),
    )
  }
  if (release === null) return notYet('The bay was not let go to be covered yet.', entries)
  if (moisture.length === 0)
    return notKnown('It was let go and no moisture test says who tested it.', [release.entry])
  return met('Tested by one person, let go by another.', entries)
}

/** @provenance our judgement */
const lateShare: Limit = { value: 10, unit: '% of the entries', operator: '<=', ...judgement }

/** C16: written when it happened. */
export const writtenInTime: Requirement = {
  id: 'C16',
  title: 'In time',
  asks: 'At most a tenth of the entries were written late, and none that decides an argument.',
  whatToDo: 'A late entry stays late. Say in a non-conformance why, and who else saw it.',
  record: null,
  mayBeAnswered: true,
  ...judgement,
  find: ({ facts }) => {
    const { story, rules } = facts
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const written = writtenFacts(story)
    const late = lateEntriesOf(story, rules)
    const decisive = late.filter((one) => one.decisive)
    const share = (100 * late.length) / written.length
    const said = `${late.length} of ${counted(written.length, 'entry', 'entries')} written more than ${rules.limits['record.lateHours'].value} h late, ${rounded(share, 0)} % (${limitText(lateShare)})`
    const ids = late.map(({ entry }) => entry.id as string)
    if (decisive.length > 0)
      return notMet(
        `${said}; ${decisive.length} of them ${decisive.length === 1 ? 'decides' : 'decide'} an argument.`,
        decisive.map(({ entry }) => entry.id),
      )
    return keepsLimit(share, lateShare) ? met(`${said}.`, ids) : notMet(`${said}.`, ids)
  },
}

export const closing: readonly Requirement[] = [nothingOpen, answersSaySomething, twoPeople, writtenInTime]
