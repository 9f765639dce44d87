import type { z } from 'zod'
import type { RangeAnswer } from './entry.ts'
import type { Field, FieldSet } from './fields.ts'
import { type KindName, kinds } from './kinds.ts'

/** Something entered that cannot be kept as it is: where, what was given, and a sentence that says what to do. */
export interface FieldProblem {
  /** Path inside the body, such as `cementKg` or `points.0.mm`. */
  field: string
  value: string
  message: string
}

export interface CheckedBody {
  /** The body as it will be kept (texts trimmed); null when there are problems. */
  body: Record<string, unknown> | null
  problems: FieldProblem[]
}

/**
 * Checks the body of an entry against its kind: types, hard ranges, misspelt names, and what the kind itself knows
 * about fields that belong together.
 * @returns the body to keep, or every problem found, each with a sentence naming field, value and range
 */
export function checkBody(kind: KindName, given: unknown): CheckedBody {
  const parsed = kinds[kind].body.safeParse(given)
  if (!parsed.success) {
    return {
      body: null,
      problems: parsed.error.issues.flatMap((issue) => problemsOfIssue(kind, given, issue)),
    }
  }
  const body = parsed.data as Record<string, unknown>
  const problems = problemsOf(kind, body).map(({ field, message }) => problemAt(kind, body, field, message))
  return problems.length > 0 ? { body: null, problems } : { body, problems: [] }
}

/**
 * The numbers of a body that lie outside their usual range and have no answer yet. An answer counts when it names
 * the same field and the same value.
 */
export function unansweredRanges(
  kind: KindName,
  body: Record<string, unknown>,
  answers: readonly RangeAnswer[],
): FieldProblem[] {
  return [...numbersOf(kinds[kind].fields, body, '')].flatMap(({ path, value, field }) => {
    if (field.soft === undefined) return []
    const [low, high] = field.soft
    if (value >= low && value <= high) return []
    if (answers.some((answer) => answer.field === path && answer.value === value)) return []
    const usual = low === high ? `${low}` : `from ${low} to ${high}`
    const message = `is unusual; it is mostly ${usual}${unitOf(field)}. Check it, or say why it is right`
    return [problemAt(kind, body, path, message)]
  })
}

/** Every reference in a body: where it stands, the id it holds and what the id must point at. */
export function* referencesOf(
  fields: FieldSet,
  body: Record<string, unknown>,
  prefix = '',
): Generator<{ path: string; id: string; pointsAt: string }> {
  for (const [name, field] of Object.entries(fields)) {
    const value = body[name]
    if (field.pointsAt !== undefined && typeof value === 'string') {
      yield { path: prefix + name, id: value, pointsAt: field.pointsAt }
    }
    if (field.item !== undefined && Array.isArray(value)) {
      for (const [i, item] of value.entries()) yield* referencesOf(field.item, item, `${prefix}${name}.${i}.`)
    }
  }
}

/** A problem with its sentence: "Cement (cementKg) is 3; it must be a number from 5 to 2000 kg." */
export function problemAt(kind: KindName, body: unknown, path: string, message: string): FieldProblem {
  const value = valueAt(body, path)
  const label = path === 'happenedAt' ? 'When it happened' : fieldAt(kinds[kind].fields, path)?.label
  const name = label === undefined ? path : `${label} (${path})`
  const rest = message.replace(/\.$/, '')
  const sentence =
    value === undefined
      ? `${name} is missing; it ${rest}.`
      : rest.startsWith('is ')
        ? `${name}, ${shown(value)}, ${rest}.`
        : `${name} is ${shown(value)}; it ${rest}.`
  return { field: path, value: shown(value), message: sentence }
}

function problemsOf(kind: KindName, body: Record<string, unknown>) {
  return (kinds[kind].problems as (body: Record<string, unknown>) => { field: string; message: string }[])(
    body,
  )
}

function problemsOfIssue(kind: KindName, given: unknown, issue: z.core.$ZodIssue): FieldProblem[] {
  const path = issue.path.map(String).join('.')
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => {
      const field = path === '' ? key : `${path}.${key}`
      const title = kinds[kind].title.toLowerCase()
      return {
        field,
        value: shown(valueAt(given, field)),
        message: `${field} is not a fact of "${title}"; check its spelling or leave it out.`,
      }
    })
  }
  const field = fieldAt(kinds[kind].fields, path)
  return [problemAt(kind, given, path, wordsFor(issue, field))]
}

function wordsFor(issue: z.core.$ZodIssue, field: Field | undefined): string {
  if (issue.code !== 'invalid_type') return issue.message
  if (field?.input === 'list') return 'must be a list'
  if (field?.input === 'reference') return `must be the id of a known ${field.pointsAt}`
  return field === undefined ? 'must be a set of named facts' : issue.message
}

function* numbersOf(
  fields: FieldSet,
  body: Record<string, unknown>,
  prefix: string,
): Generator<{ path: string; value: number; field: Field }> {
  for (const [name, field] of Object.entries(fields)) {
    const value = body[name]
    if (typeof value === 'number') yield { path: prefix + name, value, field }
    if (field.item !== undefined && Array.isArray(value)) {
      for (const [i, item] of value.entries()) yield* numbersOf(field.item, item, `${prefix}${name}.${i}.`)
    }
  }
}

function fieldAt(fields: FieldSet, path: string): Field | undefined {
  const [name, index, ...rest] = path.split('.')
  const field = name !== undefined && Object.hasOwn(fields, name) ? fields[name] : undefined
  if (field === undefined || index === undefined) return field
  return field.item === undefined || rest.length === 0 ? undefined : fieldAt(field.item, rest.join('.'))
}

function valueAt(body: unknown, path: string): unknown {
  let value = body
  for (const step of path === '' ? [] : path.split('.')) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined
    value = (value as Record<string, unknown>)[step]
  }
  return value
}

function unitOf(field: Field): string {
  return field.unit === undefined || field.unit === '' ? '' : ` ${field.unit}`
}

function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value))
  return text.length > 80 ? `${text.slice(0, 77)}…` : text
}
