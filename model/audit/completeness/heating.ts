import { entriesOf } from '#model/record/story.ts'
import { keepsLimit, limitText } from '#model/rules/index.ts'
import type { HeatingPoint } from '#model/watch/facts/heating.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { daysBetween, hoursBetween, rounded } from '#model/watch/facts/time.ts'
import {
  beforeLaying,
  counted,
  doesNotApply,
  type Finding,
  met,
  notKnown,
  notMet,
  notYet,
  type Requirement,
} from './requirement.ts'

/** A floor that is heated for the first time later than this after its first allowed day has been forgotten. Our judgement. */
const forgottenAfterDays = 60

/** C9: tight pipes before laying, and a first run without holes in its log. */
export const heatingLogged: Requirement = {
  id: 'C9',
  title: 'Heating',
  asks: 'A heated floor has its pressure test and the log of its first run, without a gap of more than a day.',
  whatToDo: 'Add the test sheet of the pipes, and the readings of the run that are missing.',
  record: 'heating-noted',
  mayBeAnswered: true,
  source: 'EN 1264-4: pressure test and first heating, with a record',
  provenance: 'quoted second-hand',
  find: ({ facts }) => {
    if (!facts.story.zone.body.heated) return doesNotApply('The floor is not heated.')
    const waiting = beforeLaying(facts)
    if (waiting !== null) return waiting
    const tests = entriesOf(facts.story, 'pipes-pressure-tested')
    const test = tests.at(-1)
    const entries = tests.map(({ id }) => id as string)
    if (test === undefined) return notMet('No pressure test of the pipes is recorded.')
    if (!test.body.passed)
      return notMet(`The pressure test failed: ${test.body.startBar} to ${test.body.endBar} bar.`, entries)
    if (test.happenedAt > facts.life.startedAt!)
      return notMet('The pipes were tested only after laying began.', entries)
    return runFinding(facts, entries)
  },
}

function runFinding({ heating, rules, life, asOf, story }: BayFacts, tests: string[]): Finding {
  const firstDays =
    rules.limits[life.cementBound ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays'].value
  const running = heating.filter(isRunning)
  const first = running[0]
  if (first === undefined) {
    const age = daysBetween(life.t0!, asOf)
    const covered = life.coveredAt !== null
    if (age < firstDays + forgottenAfterDays && !covered)
      return notYet('The pipes are tight; the first run is not in the log yet.', tests)
    return notMet(
      `${rounded(age, 0)} days old${covered ? ', covered' : ''}, and no first run is in the log.`,
      tests,
    )
  }
  const last = running.at(-1)!
  const off = heating.find(({ at, state }) => state === 'off' && at >= last.at)
  const run = heating.filter(({ at }) => at >= first.at && at <= (off?.at ?? last.at))
  const entries = [...tests, ...run.map(({ entry }) => entry)]
  const limit = rules.limits['heat.logGapHours']
  const gap = longestGap(off === undefined ? [...run, { at: asOf }] : run)
  const said = `longest gap ${rounded(gap, 1)} h (${limitText(limit)})`
  if (!keepsLimit(gap, limit)) {
    if (off === undefined && keepsLimit(longestGap(run), limit))
      return notKnown(
        `The log ends while the heating runs, ${rounded(hoursBetween(last.at, asOf), 0)} h ago: whether it runs still, nobody knows.`,
        entries,
      )
    return notMet(`The log of the first run has holes: ${said}.`, entries)
  }
  if (off === undefined) return notYet(`The first run goes on; so far ${said}.`, entries)
  const flows = story.series.some(({ quantity }) => quantity === 'flowC')
  return met(
    `Pipes tight; first run with ${counted(run.length, flows ? 'reading' : 'note')}, ${said}.`,
    entries,
  )
}

function isRunning({ state, flowC }: HeatingPoint): boolean {
  return state === 'running' && flowC !== null
}

/** [h] */
function longestGap(points: readonly { at: number }[]): number {
  let longest = 0
  for (let i = 1; i < points.length; i++)
    longest = Math.max(longest, hoursBetween(points[i - 1]!.at, points[i]!.at))
  return longest
}
