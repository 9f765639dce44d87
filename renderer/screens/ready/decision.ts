import type { Condition, Readiness } from '#model/readiness/verdict.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import type { Covering } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import { readyWords } from '../../app/words/ready.ts'
import { numberText } from '../../parts/number-text.ts'

const words = readyWords.sign

export type DecisionKind = BodyOf<'bay-decided'>['decision']

/** What stands in the boxes of a decision. */
export interface DecisionDraft {
  decision: DecisionKind
  own: string
  /** Names of conditions that were ticked as reasons. */
  ticked: readonly string[]
  reason: string
  nextLookOn: string
  orderedBy: string
  explained: string
}

export type DecisionReading =
  | { kind: 'body'; body: BodyOf<'bay-decided'> }
  | { kind: 'missing'; field: 'own' | 'reason' | 'orderedBy'; sentence: string }

/** The decision as it will be written, or what is still missing for it. */
export function readDecision(
  draft: DecisionDraft,
  readiness: Readiness,
  covering: Covering,
): DecisionReading {
  const common = { covering, verdictShown: readiness.verdict }
  const nextLookOn = draft.nextLookOn === '' ? {} : { nextLookOn: draft.nextLookOn }
  switch (draft.decision) {
    case 'accepted': {
      const ownReading = draft.own.trim()
      if (ownReading === '') return { kind: 'missing', field: 'own', sentence: words.ownNeeded }
      return { kind: 'body', body: { decision: 'accepted', ...common, ownReading } }
    }
    case 'refused': {
      const reasons = [...reasonsOf(readiness.conditions, draft.ticked), draft.reason.trim()].filter(
        (text) => text !== '',
      )
      if (reasons.length === 0) return { kind: 'missing', field: 'reason', sentence: words.reasonNeeded }
      const listed = { reasons: reasons.map((reason) => ({ reason })) }
      return { kind: 'body', body: { decision: 'refused', ...common, ...listed, ...nextLookOn } }
    }
    case 'waived': {
      const [by, explained] = [draft.orderedBy.trim(), draft.explained.trim()]
      if (by === '' || explained === '')
        return { kind: 'missing', field: 'orderedBy', sentence: words.waiveNeeded }
      const reason = words.waiveReason(by, readingText(readiness), explained)
      return { kind: 'body', body: { decision: 'waived', ...common, reasons: [{ reason }] } }
    }
  }
}

/** The conditions that stand against covering. */
export function openConditions(conditions: readonly Condition[]): Condition[] {
  return conditions.filter(({ state }) => state !== 'met')
}

function reasonsOf(conditions: readonly Condition[], ticked: readonly string[]): string[] {
  return openConditions(conditions)
    .filter(({ name }) => ticked.includes(name))
    .map(({ name, because }) => `${name}: ${because}`)
}

function readingText({ governing }: Readiness): string {
  if (governing === null || governing.test === null) return words.noReading
  const { value, unit, point } = governing.test
  return `${numberText(value, 1)} ${unit} at ${point} against ${limitText(governing.limit)}`
}
