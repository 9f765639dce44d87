import { CsvError, type Options, parse } from 'csv-parse/sync'
import type { LoggerReading } from '#model/contract/logger-file.ts'

export type Separator = LoggerReading['separator']

/**
 * Returns the fields of each line, or null where a quotation mark is opened and not closed.
 *
 * A logger writes one row a line, so a row never runs on into the next line: a stray quotation mark costs its own
 * line and not the rest of the file. A line without quotation marks is split at its separators; the others are
 * read by RFC 4180 rules, many at once for speed and one by one where that does not give one row a line.
 */
export function fieldsOfLines(lines: readonly string[], separator: Separator): (string[] | null)[] {
  const rows: (string[] | null)[] = new Array(lines.length)
  const quoted: number[] = []
  for (let i = 0; i < lines.length; i++) {
    if (lines[i]!.includes('"')) quoted.push(i)
    else rows[i] = lines[i]!.split(separator)
  }
  if (quoted.length === 0) return rows

  const together = parseQuoted(quoted.map((i) => lines[i]!).join('\n'), separator)
  const oneEach = together?.length === quoted.length
  quoted.forEach((i, place) => {
    rows[i] = oneEach ? together[place]! : (parseQuoted(lines[i]!, separator)?.[0] ?? null)
  })
  return rows
}

function parseQuoted(text: string, separator: Separator): string[][] | null {
  const options: Options = { delimiter: separator, relax_column_count: true, relax_quotes: true }
  try {
    return parse(text, options)
  } catch (cause) {
    if (cause instanceof CsvError) return null
    throw cause
  }
}
