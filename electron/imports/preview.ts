import type { LoggerPreview, LoggerQuestion, LoggerReading } from '#model/contract/logger-file.ts'
import { encodingOf } from './encoding.ts'
import { fieldsOfLines } from './fields.ts'
import { columnsOf, firstNumberColumn } from './guess-columns.ts'
import { datesOf } from './guess-dates.ts'
import { layoutOf } from './guess-layout.ts'
import { timeZoneInHeader } from './header-words.ts'
import { shownLine } from './lines.ts'
import { headOf, sampleOf } from './sample.ts'

/** What is found out of a file before anybody confirms it. Nothing is written. */
export type LoggerGuess = Pick<
  LoggerPreview,
  'guess' | 'trouble' | 'header' | 'firstLines' | 'columns' | 'questions'
>

/** Rows of data shown below the heading. */
const shownRows = 12

/**
 * Returns how a logger file seems to be laid out, with what a person must confirm, or why it cannot be read.
 * @param timeZone the site's zone, taken unless the file names another.
 */
export async function guessLoggerFile(path: string, bytes: number, timeZone: string): Promise<LoggerGuess> {
  const { encoding, trouble } = encodingOf(await headOf(path))
  if (encoding === null) return nothing(trouble)
  const sample = await sampleOf(path, encoding, bytes)
  const layout = layoutOf(sample)
  if (layout === null) return nothing(whyNoLayout(sample.head), sample.head)

  const { separator, decimal, headerRows, header, data } = layout
  const shown = sample.head.slice(0, headerRows + shownRows)
  const firstLines = fieldsOfLines(shown, separator).map(
    (cells, i) => cells?.map(shownLine) ?? [shownLine(shown[i]!)],
  )
  const dates = datesOf(data, timeZone.startsWith('America/'))
  if (dates === null) {
    return { ...nothing('No column holds dates or times that all can be read.'), header, firstLines }
  }
  const { dateColumn, timeColumn, dateOrder } = dates
  const taken = new Set(timeColumn === null ? [dateColumn] : [dateColumn, timeColumn])
  const columns = columnsOf(header, data, decimal, taken)
  const chosen = columns
    .flatMap(({ index, quantity, unit }) =>
      quantity === null || unit === null ? [] : [{ index, quantity, unit }],
    )
    .slice(0, 20)
  const stated = timeZoneInHeader(
    [header[dateColumn], timeColumn === null ? '' : header[timeColumn]].join(' '),
  )
  const fallback = chosen.length === 0 ? firstNumberColumn(columns, data, decimal) : null
  if (fallback !== null) chosen.push(fallback)

  const questions: LoggerQuestion[] = []
  if (dates.question !== null) questions.push({ about: 'dateOrder', sentence: dates.question })
  if (stated !== null) {
    questions.push({
      about: 'timeZone',
      sentence: `The file says its times are ${stated === 'UTC' ? 'UTC' : `UTC${stated}`}; the site’s zone is ${timeZone}. Please confirm.`,
    })
  }
  if (fallback !== null) {
    questions.push({
      about: 'columns',
      sentence: 'No column names what it holds: choose quantity and unit of each.',
    })
  } else if (columns.some(({ certainty }) => certainty === 'likely')) {
    questions.push({ about: 'columns', sentence: 'Quantity or unit of a column is a guess: please confirm.' })
  }
  const guess: LoggerReading = {
    encoding,
    separator,
    decimal,
    headerRows,
    dateColumn,
    timeColumn,
    dateOrder,
    timeZone: stated ?? timeZone,
    columns: chosen,
  }
  const readable = chosen.length > 0 && headerRows <= 200 && (data[0]?.length ?? 0) <= 200
  return {
    guess: readable ? guess : null,
    trouble: readable ? null : 'No column of numbers was found beside the time.',
    header,
    firstLines,
    columns,
    questions,
  }
}

function nothing(trouble: string, lines: readonly string[] = []): LoggerGuess {
  const firstLines = lines.slice(0, shownRows).map((line) => [shownLine(line)])
  return { guess: null, trouble, header: [], firstLines, columns: [], questions: [] }
}

function whyNoLayout(head: readonly string[]): string {
  const lines = head.filter((line) => line.trim() !== '')
  if (lines.length === 0) return 'The file holds no text. Read the logger out again.'
  if (lines.every((line) => !/[;,\t|]/.test(line))) {
    return 'Only one column was found; a time and a reading must stand side by side, parted by a comma, semicolon, tab or bar.'
  }
  return 'No row with a date and a number was found; the file holds only headings or another kind of list.'
}
