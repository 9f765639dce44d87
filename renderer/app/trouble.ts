import { ORPCError } from '@orpc/client'
import { asSentence } from './words/trouble.ts'
import { words } from './words.ts'

/** What went wrong with a call, as sentences: for the banner and, where known, beside the fields. */
export interface Trouble {
  banner: string
  fields: Record<string, string>
}

interface FieldProblem {
  field: string
  value: string
  message: string
}

/** Returns the sentences of any error that a call can throw. */
export function troubleOf(error: unknown): Trouble {
  if (!(error instanceof ORPCError)) {
    const detail = error instanceof Error && error.message !== '' ? error.message : String(error)
    return { banner: words.trouble.noAnswer(detail), fields: {} }
  }
  const data: unknown = error.data
  if (error.code === 'INPUT_OUT_OF_RANGE') return fromProblems(problemsIn(data))
  const detail = stringIn(data, 'detail')
  switch (error.code) {
    case 'CONFLICT':
      return { banner: words.trouble.conflict(detail), fields: {} }
    case 'NOT_ALLOWED':
      return { banner: words.trouble.notAllowed(detail), fields: {} }
    case 'NOT_FOUND':
      return { banner: words.trouble.notFound(stringIn(data, 'what')), fields: {} }
    case 'STORAGE':
      return { banner: words.trouble.storage(stringIn(data, 'state'), detail), fields: {} }
    case 'INTERNAL':
      return { banner: words.trouble.inside(stringIn(data, 'logId')), fields: {} }
    default:
      // The gate of the host says in its own sentence what to do.
      return { banner: asSentence(error.message), fields: {} }
  }
}

function fromProblems(problems: FieldProblem[]): Trouble {
  const fields: Record<string, string> = {}
  for (const { field, message } of problems) {
    const name = field.replace(/^entries\.\d+\./, '').replace(/^body\./, '')
    fields[name] = fields[name] === undefined ? message : `${fields[name]} ${message}`
  }
  const sentences = problems.map(({ message }) => message)
  return { banner: words.trouble.refused(sentences), fields }
}

function problemsIn(data: unknown): FieldProblem[] {
  if (typeof data !== 'object' || data === null || !('problems' in data)) return []
  return Array.isArray(data.problems) ? (data.problems as FieldProblem[]) : []
}

function stringIn(data: unknown, key: string): string {
  if (typeof data !== 'object' || data === null) return ''
  const value = (data as Record<string, unknown>)[key]
  return typeof value === 'string' ? value : ''
}
