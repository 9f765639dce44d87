import type { z } from 'zod'

export interface InputProblem {
  field: string
  value: string
  message: string
}

type Issue = z.core.$ZodIssue

/** Returns one clear sentence for each fault that the contract found in what was sent, with the field and its value. */
export function problemsOfInput(issues: readonly Issue[], input: unknown): InputProblem[] {
  return issues.flatMap((issue): InputProblem[] => {
    if (issue.code !== 'unrecognized_keys')
      return [problem(issue.path, input, wordsOf(issue, valueAt(input, issue.path)))]
    return issue.keys.map((key) =>
      problem([...issue.path, key], input, 'is not a field that belongs here; remove it'),
    )
  })
}

function problem(path: readonly PropertyKey[], input: unknown, words: string): InputProblem {
  const field = path.map(String).join('.')
  return {
    field,
    value: shown(valueAt(input, path)),
    message: `${field === '' ? 'What was sent' : field} ${words}.`,
  }
}

function wordsOf(issue: Issue, value: unknown): string {
  if (value === undefined) return 'is missing; fill it in'
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${typeWords[issue.expected] ?? issue.expected}`
    case 'too_small':
      return bound('at least', issue.minimum, issue.origin)
    case 'too_big':
      return bound('at most', issue.maximum, issue.origin)
    case 'invalid_value':
      return `must be one of: ${issue.values.map(String).join(', ')}`
    case 'invalid_format':
      return issue.format === 'datetime'
        ? 'must be a date and time with an offset, such as 2026-11-24T07:15:00+00:00'
        : ownWords(issue.message, 'is not written as it must be')
    default:
      return ownWords(issue.message, 'cannot be used')
  }
}

const typeWords: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'a group of fields',
  record: 'a group of fields',
}

function bound(words: string, limit: number | bigint, origin: string): string {
  const counted = origin === 'string' ? 'character' : origin === 'array' ? 'item' : null
  if (counted === null) return `must be ${words} ${limit}`
  return `must have ${words} ${limit} ${counted}${Number(limit) === 1 ? '' : 's'}`
}

/** Words of our own schemas start like “is …” or “must …”; those of the library do not. */
function ownWords(message: string, otherwise: string): string {
  return /^(?:is|are|must|needs|takes|has)\b/.test(message) ? message.replace(/\.$/, '') : otherwise
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let here: unknown = input
  for (const key of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined
    here = (here as Record<PropertyKey, unknown>)[key]
  }
  return here
}

function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = typeof value === 'string' ? value : JSON.stringify(value)
  return text.length > 120 ? `${text.slice(0, 119)}…` : text
}
