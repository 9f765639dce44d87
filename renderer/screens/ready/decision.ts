import type { Condition, Readiness } from '#model/readiness/verdict.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { checkUnitOf, checkUnits } from '#model/record/people.ts'
import { type Covering, type MoistureMethod, moistureMethods } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import { readyWords } from '../../app/words/ready.ts'
import { numberFromTyped, numberText } from '../../parts/number-text.ts'

const words = readyWords.sign

type Body = BodyOf<'bay-decided'>
export type DecisionKind = Body['decision']
type OwnCheck = NonNullable<Body['ownChecks']>[number]

/** What stands in the boxes of a decision. */
export interface DecisionDraft {
  decision: DecisionKind
  /** The own check reading: what it was, by which method, where; and in words. */
  ownValue: string
  ownMethod: MoistureMethod | null
  ownPlace: string
  own: string
  /** Names of conditions that were ticked as reasons. */
  ticked: readonly string[]
  reason: string
  nextLookOn: string
  orderedBy: string
  orderedAs: string
  explained: string
}

export type DecisionField =
  | 'own'
  | 'ownValue'
  | 'ownMethod'
  | 'ownPlace'
  | 'reason'
  | 'orderedBy'
  | 'orderedAs'
  | 'explained'

export type DecisionReading =
  | { kind: 'body'; body: Body }
  | { kind: 'missing'; field: DecisionField; sentence: string }

/**
 * The decision as it will be written, or what is still missing for it.
 * @param holdsUntil until when the tests count [epoch ms]; null when none does
 */
export function readDecision(
  draft: DecisionDraft,
  readiness: Readiness,
  covering: Covering,
  holdsUntil: number | null,
): DecisionReading {
  const common = { covering, verdictShown: readiness.verdict }
  switch (draft.decision) {
    case 'accepted': {
      const check = readOwnCheck(draft)
      if (check !== null && 'sentence' in check) return { kind: 'missing', ...check }
      const typed = draft.own.trim()
      if (check === null && typed === '') return missing('own', words.ownNeeded)
      const ownReading = typed === '' ? checkText(check!) : typed
      const checks = check === null ? {} : { ownChecks: [check] }
      const until = holdsUntil === null ? {} : { holdsUntil: new Date(holdsUntil).toISOString() }
      return { kind: 'body', body: { decision: 'accepted', ...common, ownReading, ...checks, ...until } }
    }
    case 'refused': {
      const check = readOwnCheck(draft)
      if (check !== null && 'sentence' in check) return { kind: 'missing', ...check }
      const own = check === null ? '' : words.ownReason(checkText(check))
      const reasons = [...reasonsOf(readiness.conditions, draft.ticked), draft.reason.trim(), own].filter(
        (text) => text !== '',
      )
      if (reasons.length === 0) return missing('reason', words.reasonNeeded)
      const listed = { reasons: reasons.map((reason) => ({ reason })) }
      const nextLookOn = draft.nextLookOn === '' ? {} : { nextLookOn: draft.nextLookOn }
      const checks = check === null ? {} : { ownChecks: [check] }
      return { kind: 'body', body: { decision: 'refused', ...common, ...listed, ...checks, ...nextLookOn } }
    }
    case 'waived': {
      const waiver = waiverOf(draft, readiness)
      const empty = (['orderedBy', 'orderedAs', 'explained'] as const).find((field) => waiver[field] === '')
      if (empty !== undefined) return missing(empty, words.waiveNeeded[empty])
      const { orderedBy, orderedAs, knownReading, knownLimit, explained } = waiver
      const reason = words.waiveReason(
        `${orderedBy} (${orderedAs})`,
        `${knownReading} against ${knownLimit}`,
        explained,
      )
      return { kind: 'body', body: { decision: 'waived', ...common, ...waiver, reasons: [{ reason }] } }
    }
  }
}

/** Who orders a covering before readiness, knowing what; empty where nothing was typed yet. */
export function waiverOf(draft: DecisionDraft, { governing }: Readiness) {
  const test = governing?.test ?? null
  return {
    orderedBy: draft.orderedBy.trim(),
    orderedAs: draft.orderedAs.trim(),
    knownReading:
      test === null ? words.noReading : `${numberText(test.value, 1)} ${test.unit} at ${test.point}`,
    knownLimit: governing === null ? words.noLimit : limitText(governing.limit),
    explained: draft.explained.trim(),
  }
}

/** "66 % RH at B3, probe in a drilled sleeve". */
export function checkText({ value, unit, method, place }: OwnCheck): string {
  return `${numberText(value)} ${checkUnits[unit]} at ${place}, ${moistureMethods[method].toLowerCase()}`
}

/** The sentence that an acceptance stands for, as far as it is typed. */
export function ownText(draft: DecisionDraft): string {
  const check = readOwnCheck(draft)
  const parts = [
    ...(check !== null && !('sentence' in check) ? [checkText(check)] : []),
    ...(draft.own.trim() === '' ? [] : [draft.own.trim()]),
  ]
  return parts.length === 0 ? '…' : parts.join('; ')
}

/** The conditions that stand against covering. */
export function openConditions(conditions: readonly Condition[]): Condition[] {
  return conditions.filter(({ state }) => state !== 'met')
}

interface Missing {
  field: DecisionField
  sentence: string
}

/** Null when none of it is typed; what is missing when only some of it is. */
function readOwnCheck({ ownValue, ownMethod, ownPlace }: DecisionDraft): OwnCheck | Missing | null {
  const place = ownPlace.trim()
  const read = numberFromTyped(ownValue)
  if (read.kind === 'empty' && place === '') return null
  if (read.kind !== 'number') return { field: 'ownValue', sentence: words.ownValueNeeded }
  if (ownMethod === null) return { field: 'ownMethod', sentence: words.ownMethodNeeded }
  const unit = checkUnitOf[ownMethod]
  const most = unit.startsWith('%') ? 100 : 1000
  if (read.value < 0 || read.value > most)
    return { field: 'ownValue', sentence: words.ownValueOutside(String(most), checkUnits[unit]) }
  if (place === '') return { field: 'ownPlace', sentence: words.ownPlaceNeeded }
  return { value: read.value, unit, method: ownMethod, place }
}

function missing(field: DecisionField, sentence: string): DecisionReading {
  return { kind: 'missing', field, sentence }
}

function reasonsOf(conditions: readonly Condition[], ticked: readonly string[]): string[] {
  return openConditions(conditions)
    .filter(({ name }) => ticked.includes(name))
    .map(({ name, because }) => `${name}: ${because}`)
}
