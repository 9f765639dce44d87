import type { StoryEntry } from '#model/record/entry.ts'
import type { Field, FieldSet } from '#model/record/fields.ts'
import { kinds } from '#model/record/kinds.ts'
import { useValueText } from '../../parts/body-list.tsx'

const most = 4
const mostLetters = 140

/** The first few facts of a body in one line: "Cement 50 kg, Damp sand 200 kg". */
export function useSummary(): (entry: StoryEntry) => string {
  const text = useValueText()
  return (entry) => {
    const fields: FieldSet = kinds[entry.kind].fields
    const body: Record<string, unknown> = entry.body
    const told = Object.entries(fields).filter(([name, field]) => body[name] !== undefined && isShort(field))
    if (told.length === 0) return wordsOf(fields, body)
    return told
      .slice(0, most)
      .map(([name, field]) =>
        field.input === 'choice' || field.input === 'text'
          ? text(field, body[name])
          : `${field.label} ${text(field, body[name])}`,
      )
      .join(', ')
  }
}

/** What somebody wrote, where the fact is told in words alone. */
function wordsOf(fields: FieldSet, body: Record<string, unknown>): string {
  const written = Object.entries(fields)
    .filter(([name, field]) => field.input === 'long text' && body[name] !== undefined)
    .map(([name, field]) => `${field.label}: ${String(body[name])}`)
    .join(' ')
  return written.length > mostLetters ? `${written.slice(0, mostLetters).trimEnd()}…` : written
}

function isShort(field: Field): boolean {
  return field.input !== 'long text' && field.input !== 'list' && field.input !== 'reference'
}
