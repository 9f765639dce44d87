import type { BayStory } from '#model/record/story.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { acrossClockChange, beforeItHappened, type ClockJump, clockWentBack } from './clocks.ts'
import { copiedSeriesQuestions } from './copied-series.ts'
import { copiedValuesQuestions } from './copied-values.ts'
import { digitQuestions } from './digits.ts'
import { evenSeriesQuestions } from './even-series.ts'
import { instrumentQuestions } from './instruments.ts'
import { lateQuestion, sittingQuestions } from './late.ts'
import { massQuestion } from './mass.ts'
import type { Question } from './question.ts'

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

/** Returns the questions that only several bays together, or the machines that wrote, give rise to. */
export function questionsBetweenBays(stories: readonly BayStory[], jumps: readonly ClockJump[]): Question[] {
  return [
    ...copiedSeriesQuestions(stories),
    ...copiedValuesQuestions(stories),
    ...digitQuestions(stories),
    ...sittingQuestions(stories),
    ...clockWentBack(jumps, new Set(stories.map(({ bay }) => bay.id as string))),
  ]
}
