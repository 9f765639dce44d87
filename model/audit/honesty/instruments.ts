import type { StoryEntry } from '#model/record/entry.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { dayMs, siteDayStart } from '#model/watch/facts/time.ts'
import { shows } from '#model/watch/rule.ts'
import { ours, type Question } from './question.ts'

/**
 * Asks about tests made with an instrument whose certificate had run out on the day, or that had failed its last check
 * before. What is known today does not count: an instrument is judged as of the day of the test.
 * @provenance common practice
 */
export function instrumentQuestions(story: BayStory): Question[] {
  return story.entries.flatMap((entry): Question[] => {
    const used = instrumentOf(entry)
    if (used === null || entry.withdrawn) return []
    const wrong = faultOn(story, used, entry.happenedAt)
    if (wrong === null) return []
    return [
      {
        id: `instrument:${entry.id}`,
        rule: 'instrument',
        asks: `${wrong.because} Was another instrument used, or is a newer check missing from the record?`,
        innocent: 'The new certificate hangs in the office and was not entered.',
        bays: [story.bay.id],
        evidence: [
          shows(entry.id, 'Used on', '', '', entry.happenedAt),
          shows(wrong.entry, wrong.what, wrong.value),
        ],
        ...ours,
        source: 'Practice of measuring: an instrument is in date on the day it is read',
        provenance: 'common practice',
      },
    ]
  })
}

function instrumentOf({ body }: StoryEntry): string | null {
  return 'instrument' in body && typeof body.instrument === 'string' ? body.instrument : null
}

interface Fault {
  because: string
  what: string
  value: string
  entry: string
}

function faultOn(story: BayStory, instrument: string, at: number): Fault | null {
  const added = entriesOf(story, 'instrument-added').find(({ subject }) => subject === instrument)
  if (added === undefined) return null
  const name = `${added.body.type} ${added.body.serial}`
  const checks = entriesOf(story, 'instrument-checked').filter(
    ({ subject, happenedAt }) => subject === instrument && happenedAt <= at,
  )
  const failed = checks.at(-1)
  if (failed !== undefined && !failed.body.passed) {
    return {
      because: `The ${name} had failed its last check before this.`,
      what: 'Last check before',
      value: failed.body.foundPercent === undefined ? 'failed' : `failed at ${failed.body.foundPercent} %`,
      entry: failed.id,
    }
  }
  const renewed = checks.findLast(({ body }) => body.check === 'certificate' && body.dueOn !== undefined)
  const dueOn = renewed?.body.dueOn ?? added.body.dueOn
  if (dueOn === undefined) return null
  // The whole last day counts on the clock of the site.
  const lastDay = siteDayStart(Date.parse(`${dueOn}T12:00:00Z`), story.timeZone)
  if (at < lastDay + dayMs) return null
  return {
    because: `The certificate of the ${name} had run out.`,
    what: 'Certificate until',
    value: dueOn,
    entry: renewed?.id ?? added.id,
  }
}
