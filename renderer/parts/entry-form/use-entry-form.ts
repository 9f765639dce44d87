import { useState } from 'react'
import type { RangeAnswer } from '#model/record/entry.ts'
import type { FieldSet } from '#model/record/fields.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { nowMs, useNow } from '../../app/clock.ts'
import { words } from '../../app/words.ts'
import { afterPress } from './after-press.ts'
import { type Asking, askingOf } from './asking.ts'
import { type DraftValue, type DraftValues, recordedWall } from './draft.ts'
import { type Draft, type DraftHandle, useDraft } from './draft-store.ts'
import type { FormSetting } from './form-context.tsx'
import { type DraftReading, type FieldProblem, fieldAt, readDraft, sentence } from './read-draft.ts'

export interface EntryFormOptions {
  kind: KindName
  draftKey: string
  zone: string
  subject?: string | null
  start?: DraftValues
  /** Fields that `start` settles: they are written and not asked. */
  given?: readonly string[]
  /** The recorded moment, when an entry is being corrected. */
  happenedAt?: number
  answers?: readonly RangeAnswer[]
  needsReason?: boolean
}

export interface EntryForm extends DraftHandle {
  kind: KindName
  asking: Asking
  /** The fields that count for what has been answered so far, first ones and the rest. */
  first: FieldSet
  more: FieldSet
  reading: DraftReading
  setting: FormSetting
  /** Null with the sentences shown when something cannot stand; else what is to be written. */
  submit: () => SubmittedEntry | null
  tried: boolean
  problems: FieldProblem[]
  refuse: (fields: Record<string, string>) => void
}

export interface SubmittedEntry {
  id: Draft['id']
  happenedAt: string
  body: Record<string, unknown>
  answers: { field: string; value: number; answer: string }[]
  reason?: string
}

/** Everything a form does except being drawn: its draft, its reading, what may be shown as wrong by now. */
export function useEntryForm(options: EntryFormOptions): EntryForm {
  const { kind, zone } = options
  const asking = withGiven(askingOf(kind), options.given ?? [])
  const handle = useDraft(options.draftKey, () => ({
    values: { ...startValues(kinds[kind].fields, asking), ...options.start },
    happened: options.happenedAt === undefined ? 'now' : recordedWall(options.happenedAt, zone),
    answers: Object.fromEntries(
      (options.answers ?? []).map(({ field, value, answer }) => [field, { value, answer }]),
    ),
  }))
  const { draft } = handle
  const now = useNow()
  const [touched, setTouched] = useState<ReadonlySet<string>>(new Set())
  const [tried, setTried] = useState(false)
  const [refused, setRefused] = useState<Record<string, string>>({})

  const counting = countingFields(kinds[kind].fields, asking, draft.values)
  const { reading, problems, happenedAt } = readForm(options, asking, counting, draft, now)
  const asked = new Set(reading.questions.map(({ field }) => field))
  const shown = problems.filter(({ field }) => tried || (touched.has(field) && !asked.has(field)))
  const errors = { ...refused, ...Object.fromEntries(shown.map(({ field, message }) => [field, message])) }
  const isFirst = (name: string) => counting[name]?.required === true || asking.first?.includes(name) === true
  const entries = Object.entries(counting)

  return {
    ...handle,
    clear: () => {
      setTried(false)
      setTouched(new Set())
      setRefused({})
      handle.clear()
    },
    setValue: (field, value) => {
      setRefused({})
      handle.setValue(field, value)
    },
    kind,
    asking,
    first: Object.fromEntries(entries.filter(([name]) => isFirst(name))),
    more: Object.fromEntries(entries.filter(([name]) => !isFirst(name))),
    reading,
    tried,
    problems,
    refuse: setRefused,
    setting: {
      formId: kind,
      zone,
      subject: options.subject ?? null,
      errors,
      questions: reading.questions,
      answers: draft.answers,
      onTouched: (path) => afterPress(() => setTouched((before) => new Set(before).add(path))),
      onAnswer: (path, answer) => {
        const { [path]: _, ...others } = draft.answers
        handle.change({ answers: answer === null ? others : { ...others, [path]: answer } })
      },
    },
    submit: () => {
      setTried(true)
      if (problems.length > 0 || happenedAt === null) return null
      return {
        id: draft.id,
        happenedAt,
        body: reading.body,
        answers: reading.questions.map(({ field, value }) => ({
          field,
          value,
          answer: draft.answers[field]?.answer.trim() || words.form.sureDefault,
        })),
        ...(options.needsReason === true ? { reason: draft.reason.trim() } : {}),
      }
    },
  }
}

function withGiven(asking: Asking, given: readonly string[]): Asking {
  return given.length === 0 ? asking : { ...asking, hidden: [...(asking.hidden ?? []), ...given] }
}

/** Required moments stand at "now" unless the form of the kind says otherwise. */
function startValues(fields: FieldSet, asking: Asking): DraftValues {
  const nows = Object.entries(fields)
    .filter(([, field]) => field.input === 'instant' && field.required)
    .map(([name]): [string, DraftValue] => [name, 'now'])
  return { ...Object.fromEntries(nows), ...asking.start }
}

function countingFields(fields: FieldSet, asking: Asking, values: DraftValues): FieldSet {
  return Object.fromEntries(
    Object.entries(fields).filter(
      ([name]) => asking.hidden?.includes(name) !== true && (asking.shown?.(name, values) ?? true),
    ),
  )
}

const aheadMs = 5 * 60_000

function readForm(
  { kind, zone, needsReason }: EntryFormOptions,
  asking: Asking,
  counting: FieldSet,
  draft: Draft,
  now: number,
) {
  const hidden = hiddenFields(kinds[kind].fields, counting, asking)
  const reading = readDraft({ ...counting, ...hidden }, draft.values, zone, now)
  const problems = [...reading.problems]
  if (problems.length === 0) {
    const about = kinds[kind] as unknown as { problems: (body: unknown) => FieldProblem[] }
    for (const { field, message } of about.problems(reading.body)) {
      problems.push({ field, message: sentence(fieldAt(counting, field)?.label ?? field, message) })
    }
  }
  for (const { field, value } of reading.questions) {
    if (draft.answers[field]?.value === value) continue
    const label = fieldAt(counting, field)?.label ?? field
    problems.push({ field, message: words.form.sureNeeded(label) })
  }
  const happened = readDraft(
    { happenedAt: whenField(asking) },
    { happenedAt: whenDraft(asking, draft) },
    zone,
    now,
  )
  const happenedAt =
    asking.happens?.(reading.body) ?? (happened.body.happenedAt as string | undefined) ?? null
  if (happenedAt === null) problems.push(...happened.problems)
  else if (Date.parse(happenedAt) > nowMs() + aheadMs) {
    const field = asking.when === 'ask' || asking.when === 'now' ? 'happenedAt' : asking.when
    problems.push({ field, message: words.form.future })
  }
  if (needsReason === true && draft.reason.trim() === '') {
    problems.push({ field: 'reason', message: words.form.reasonNeeded })
  }
  return { reading, problems, happenedAt }
}

/** Fields that are drawn, not typed, keep what a correction started with; those of another method do not. */
function hiddenFields(fields: FieldSet, counting: FieldSet, asking: Asking): FieldSet {
  const kept = Object.entries(fields).filter(
    ([name]) => asking.hidden?.includes(name) === true && !Object.hasOwn(counting, name),
  )
  return Object.fromEntries(kept)
}

export function whenField(asking: Asking) {
  return { ...whenBase, label: asking.whenLabel ?? words.form.when }
}

function whenDraft(asking: Asking, draft: Draft): DraftValue {
  if (asking.when === 'ask') return draft.happened
  if (asking.when === 'now') return draft.happened
  return draft.values[asking.when]
}

const whenBase = kinds['lift-laid'].fields.finishedAt
