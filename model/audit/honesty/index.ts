import type { BayFacts } from '#model/watch/facts/index.ts'
import { acrossClockChange, beforeItHappened, type ClockJump, clockWentBack } from './clocks.ts'
import { comparedSeries } from './copied-series.ts'
import { comparedValues } from './copied-values.ts'
import { comparedDigits } from './digits.ts'
import { evenSeriesQuestions } from './even-series.ts'
import { instrumentQuestions } from './instruments.ts'
import { comparedSittings, lateQuestion } from './late.ts'
import { massQuestion } from './mass.ts'
import type { Comparison, Question } from './question.ts'

export type { ClockJump } from './clocks.ts'
export { type Corroboration, corroborationOf, type Witness, witnesses } from './corroboration.ts'
export { type HonestyRule, honestyRules, type Question } from './question.ts'

/** Returns the questions that one bay alone gives rise to. */
export function questionsOfBay(facts: BayFacts): Question[] {
  const { story, rules } = facts
  return [
    ...massQuestion(facts),
    ...instrumentQuestions(story),
    ...beforeItHappened(story),
    ...acrossClockChange(story),
    ...evenSeriesQuestions(story),
    ...lateQuestion(story, rules),
  ]
}

/**
 * Compares bays with each other, one story at a time: a big job is never in memory as a whole.
 * @returns the questions that only several bays together, or the machines that wrote, give rise to
 */
export function comparedBays(): {
  add: Comparison['add']
  questions: (jumps: readonly ClockJump[]) => Question[]
} {
  const comparisons = [comparedSeries(), comparedValues(), comparedDigits(), comparedSittings()]
  const bays = new Set<string>()
  return {
    add: (story) => {
      bays.add(story.bay.id)
      for (const { add } of comparisons) add(story)
    },
    questions: (jumps) => [
      ...comparisons.flatMap(({ questions }) => questions()),
      ...clockWentBack(jumps, bays),
    ],
  }
}
