import { holdChainFrom, holds } from '#model/hold/chain.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import type { BayId } from '#model/record/ids.ts'
import { kinds } from '#model/record/kinds.ts'
import { holdPoints } from '#model/record/people.ts'
import { type BayStory, entriesOf, storyAsOf } from '#model/record/story.ts'
import { type EffectiveRules, rulesOfProject } from '#model/rules/index.ts'
import { type BayFacts, factsOf } from '../facts/index.ts'
import { dayMs, siteClock } from '../facts/time.ts'
import type { DueAct } from '../today.ts'
import { dueActs } from './due-acts.ts'

/** Something that falls due, with what it is about. */
export interface Reminder extends DueAct {
  about: 'bay' | 'instrument'
  subject: string
  name: string
  /** Floor and zone of a bay; empty for an instrument. */
  place: string
}

/**
 * Returns what falls due until the end of the site's day `days` − 1 days ahead, soonest first: 1 is today, 2 is today and
 * tomorrow. What is overdue is due today. Instruments are those that the stories name.
 *
 * @param stories of the bays of one or more projects.
 * @param asOf epoch milliseconds; each story is cut there.
 * @throws InputError when a project's recorded rules do not exist in this version.
 */
export function dueIn(stories: readonly BayStory[], asOf: number, days: number): Reminder[] {
  return [
    ...stories.flatMap((story) => dueOfBay(story, asOf, days, rulesOfProject(story.project.body))),
    ...instrumentsDue(stories, asOf, days),
  ].sort(soonest)
}

/** Returns what falls due for one bay. */
export function dueOfBay(story: BayStory, asOf: number, days: number, rules: EffectiveRules): Reminder[] {
  const until = endOf(asOf, story.timeZone, days)
  const facts = factsOf(storyAsOf(story, asOf), asOf, rules)
  const { bay, floor, zone } = story
  return [...dueActs(facts, until - asOf), ...pointsDue(facts)]
    .filter(({ at }) => at < until)
    .map((act) => ({
      ...act,
      about: 'bay' as const,
      subject: bay.id as BayId,
      name: bay.body.name,
      place: `${floor.body.name}, ${zone.body.name}`,
    }))
    .sort(soonest)
}

/** Hold points that somebody is to look at, and that nobody has let go. */
function pointsDue(facts: BayFacts): DueAct[] {
  if (facts.life.coveredAt !== null) return []
  return holdChainFrom(facts)
    .filter((link) => holds(link) && link.state !== 'held' && link.dueAt !== null && link.point !== 'release')
    .map(({ point, dueAt, holdsBack }) => ({
      what: `Hold point: ${holdPoints[point].toLowerCase()}`,
      at: Math.round(dueAt!),
      overdue: dueAt! + dayMs < facts.asOf,
      because: `It keeps waiting: ${holdsBack.toLowerCase()}.`,
      record: 'hold-point-released' as const,
      recordTitle: kinds['hold-point-released'].title,
    }))
}

/** Kinds of instrument that are checked over a salt solution between their certificates. */
const checkedOften: readonly string[] = ['hygrometer', 'rh probe']
const checkHour = 7

/** Returns the checks and certificates of instruments that fall due, each instrument once. */
export function instrumentsDue(stories: readonly BayStory[], asOf: number, days: number): Reminder[] {
  const seen = new Set<string>()
  return stories
    .flatMap((full) => {
      const story = storyAsOf(full, asOf)
      return entriesOf(story, 'instrument-added')
        .filter(({ subject }) => !seen.has(subject) && seen.add(subject))
        .flatMap((added) => dueOfInstrument(story, added, asOf, endOf(asOf, story.timeZone, days)))
    })
    .sort(soonest)
}

function dueOfInstrument(
  story: BayStory,
  added: StoryEntryOf<'instrument-added'>,
  asOf: number,
  until: number,
): Reminder[] {
  const checks = entriesOf(story, 'instrument-checked').filter(({ subject }) => subject === added.subject)
  const certificateDue =
    checks.findLast(({ body }) => body.check === 'certificate')?.body.dueOn ?? added.body.dueOn
  const last = checks.findLast(({ body }) => body.check !== 'certificate')
  const type = kinds['instrument-added'].fields.type.options[added.body.type]
  const at7 = (at: number) => siteClock(at, story.timeZone, checkHour)
  const item = (what: string, at: number, because: string): Reminder => ({
    about: 'instrument',
    subject: added.subject,
    name: `${type} ${added.body.serial}`,
    place: '',
    what,
    at,
    overdue: at < asOf,
    because,
    record: 'instrument-checked',
    recordTitle: kinds['instrument-checked'].title,
  })
  const found: Reminder[] = []
  if (certificateDue !== undefined) {
    const at = at7(Date.parse(`${certificateDue}T12:00:00Z`))
    found.push(item('Renew the certificate', at, 'A test with it proves nothing after this day.'))
  }
  if (checkedOften.includes(added.body.type)) {
    const every = rulesOfProject(story.project.body).limits['test.probeCheckDays'].value
    if (last === undefined) found.push(item('Check it', at7(added.happenedAt), 'It was never checked.'))
    else if (!last.body.passed)
      found.push(item('Check it again', at7(last.happenedAt), 'It failed its last check.'))
    else
      found.push(
        item('Check it', at7(last.happenedAt + every * dayMs), `${every} days after the last check.`),
      )
  }
  return found.filter(({ at }) => at < until)
}

function endOf(asOf: number, timeZone: string, days: number): number {
  return siteClock(asOf, timeZone, 0, days)
}

function soonest(a: Reminder, b: Reminder): number {
  return a.at - b.at || a.name.localeCompare(b.name, 'en')
}
