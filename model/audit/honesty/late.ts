import { kinds } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import { hourMs } from '#model/time.ts'
import { dayMs } from '#model/watch/facts/time.ts'
import { shows } from '#model/watch/rule.ts'
import { lateEntriesOf, writtenFacts } from '../lateness.ts'
import { gather } from './gather.ts'
import { type Comparison, mostEvidence, ours, type Question } from './question.ts'

/** Asks about facts that decide an argument and were written down only days later. */
export function lateQuestion(story: BayStory, rules: EffectiveRules): Question[] {
  const late = lateEntriesOf(story, rules).filter(({ decisive }) => decisive)
  if (late.length === 0) return []
  return [
    {
      id: `late and decisive:${story.bay.id}`,
      rule: 'late and decisive',
      asks: `${late.length} ${late.length === 1 ? 'fact that decides' : 'facts that decide'} an argument ${late.length === 1 ? 'was' : 'were'} written down only days later. From what were they written?`,
      innocent: 'They were noted on paper on the day; keep the paper, or a photo of it.',
      bays: [story.bay.id],
      evidence: late
        .slice(0, mostEvidence)
        .map(({ entry, hours }) =>
          shows(entry.id, kinds[entry.kind].title, hours / 24, 'days late', entry.happenedAt),
        ),
      ...ours,
    },
  ]
}

/** So many facts about so many days within this time were written in one sitting. */
const sitting = { facts: 10, days: 4, withinMs: hourMs }

interface Typed {
  person: string
  recordedAt: number
  happenedAt: number
  entry: string
  bay: string
}

/** Asks about people who wrote down many days of several bays in one sitting. */
export function comparedSittings(): Comparison {
  const typed = new Map<string, Typed[]>()
  return {
    add: (story) => {
      for (const { id, source, versions, happenedAt } of writtenFacts(story)) {
        if (source !== 'typed') continue
        const { person, recordedAt } = versions[0]!
        gather(typed, person, { person, recordedAt, happenedAt, entry: id, bay: story.bay.id })
      }
    },
    questions: () => [...typed.values()].flatMap(sittingsOf),
  }
}

function sittingsOf(list: Typed[]): Question[] {
  const sorted = list.sort((a, b) => a.recordedAt - b.recordedAt)
  const found: Question[] = []
  let first = 0
  while (first < sorted.length) {
    let end = first
    while (end < sorted.length && sorted[end]!.recordedAt - sorted[first]!.recordedAt <= sitting.withinMs)
      end++
    const together = sorted.slice(first, end)
    const days = new Set(together.map(({ happenedAt }) => Math.floor(happenedAt / dayMs)))
    if (together.length >= sitting.facts && days.size >= sitting.days) {
      found.push(questionOf(together, days.size))
      first = end
    } else first++
  }
  return found
}

function questionOf(together: readonly Typed[], days: number): Question {
  const { entry, recordedAt, person } = together[0]!
  const oldest = Math.min(...together.map(({ happenedAt }) => happenedAt))
  return {
    id: `one sitting:${entry}`,
    rule: 'one sitting',
    asks: `${together.length} facts about ${days} days were written within an hour. From what were they written?`,
    innocent: 'The paper log of the week was entered, or the job was moved over from paper.',
    bays: [...new Set(together.map(({ bay }) => bay))],
    evidence: [
      shows(entry, 'First of them written', '', '', recordedAt),
      shows(null, 'Facts', together.length),
      shows(null, 'Days they speak of', days),
      shows(null, 'The oldest happened', '', '', oldest),
      shows(person, 'Written by', person),
    ],
    ...ours,
  }
}
