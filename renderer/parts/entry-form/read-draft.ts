import type { Field, FieldSet } from '#model/record/fields.ts'
import { words } from '../../app/words.ts'
import { numberFromTyped, numberText } from '../number-text.ts'
import { instantFromWall, siteIso } from '../site-time.ts'
import { type DraftValue, type DraftValues, isEmpty, isWallDraft } from './draft.ts'

export interface FieldProblem {
  /** `readings.0.at`: the same path that the record uses for its own problems. */
  field: string
  message: string
}

/** A number outside its usual range: possible, and asked about. */
export interface RangeQuestion {
  field: string
  value: number
  question: string
}

export interface DraftReading {
  /** What could be read; complete only when there are no problems. */
  body: Record<string, unknown>
  problems: FieldProblem[]
  questions: RangeQuestion[]
}

interface Reader extends DraftReading {
  zone: string
  now: number
}

/** Reads the boxes of a form into a body, with a sentence for everything that cannot stand. */
export function readDraft(fields: FieldSet, values: DraftValues, zone: string, now: number): DraftReading {
  const reader: Reader = { body: {}, problems: [], questions: [], zone, now }
  reader.body = readFields(fields, values, '', reader)
  return { body: reader.body, problems: reader.problems, questions: reader.questions }
}

function readFields(fields: FieldSet, values: DraftValues, prefix: string, reader: Reader) {
  const body: Record<string, unknown> = {}
  for (const [name, field] of Object.entries(fields)) {
    const path = prefix + name
    const value = values[name]
    if (isEmpty(value)) {
      const least = field.input === 'list' && field.required && field.schema.safeParse([]).success
      if (least) body[name] = []
      else if (field.required) reader.problems.push({ field: path, message: words.form.needed(field.label) })
      continue
    }
    const read = readField(field, value, path, reader)
    if (read !== undefined) body[name] = read
  }
  return body
}

function readField(field: Field, value: DraftValue, path: string, reader: Reader): unknown {
  const refuse = (message: string) => {
    reader.problems.push({ field: path, message })
    return undefined
  }
  switch (field.input) {
    case 'number':
      return readNumber(field, String(value), path, reader)
    case 'instant': {
      // To the minute, as every typed time: "now" must not lie seconds after a time that was typed for the same moment.
      if (value === 'now') return siteIso(Math.floor(reader.now / 60_000) * 60_000, reader.zone)
      if (!isWallDraft(value)) return undefined
      if (value.exact !== undefined) return value.exact
      const wall = instantFromWall(value.day, value.clock, reader.zone)
      if (wall === null) return refuse(words.form.noTime(field.label, value.day, value.clock))
      if (wall.kind === 'skipped') return refuse(words.form.skippedHour(field.label, value.clock))
      return siteIso(wall.kind === 'twice' && value.again === true ? wall.again : wall.at, reader.zone)
    }
    case 'list': {
      const items = Array.isArray(value) ? value : []
      const read = items.map((item, i) => readFields(field.item ?? {}, item, `${path}.${i}.`, reader))
      // The items have told their own problems; only the count is left to check.
      const count = field.schema.safeParse(read)
      const tooFew = count.error?.issues.find((issue) => issue.path.length === 0)
      if (tooFew !== undefined) refuse(sentence(field.label, tooFew.message))
      return read
    }
    default: {
      const checked = field.schema.safeParse(typeof value === 'string' ? value.trim() : value)
      return checked.success
        ? checked.data
        : refuse(sentence(field.label, checked.error.issues[0]?.message ?? ''))
    }
  }
}

function readNumber(field: Field, typed: string, path: string, reader: Reader): number | undefined {
  const read = numberFromTyped(typed)
  if (read.kind !== 'number') {
    reader.problems.push({ field: path, message: words.form.notANumber(field.label, typed.trim()) })
    return undefined
  }
  const checked = field.schema.safeParse(read.value)
  if (!checked.success) {
    const why = checked.error.issues[0]?.message ?? ''
    reader.problems.push({ field: path, message: words.form.outside(field.label, why, typed.trim()) })
    return undefined
  }
  const [least, most] = field.soft ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  if (read.value < least || read.value > most) {
    const usual = [numberText(least, 3), numberText(most, 3)] as const
    reader.questions.push({
      field: path,
      value: read.value,
      question: words.form.unusual(field.label, numberText(read.value, 4), usual, field.unit ?? ''),
    })
  }
  return read.value
}

/** Puts the field's name before a message that is only the rest of a sentence ("must not be empty"). */
export function sentence(label: string, message: string): string {
  const text = /^[a-z]/.test(message) ? `${label} ${message}` : message
  return /[.!?]$/.test(text) ? text : `${text}.`
}

/** The field that a path stands for: `readings.0.at` → the field `at` of the list `readings`. */
export function fieldAt(fields: FieldSet, path: string): Field | undefined {
  const [name = '', , ...rest] = path.split('.')
  const field = fields[name]
  return rest.length === 0 || field?.item === undefined ? field : fieldAt(field.item, rest.join('.'))
}
