import { z } from 'zod'
import { type SeriesQuantity, seriesQuantities } from '../record/climate.ts'

const quantityNames = Object.keys(seriesQuantities) as [SeriesQuantity, ...SeriesQuantity[]]

/** How a person wants a logger file to be read. Everything is guessed first, shown, and confirmed. */
export const loggerReading = z.strictObject({
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']),
  separator: z.enum([',', ';', '\t', '|']),
  decimal: z.enum(['.', ',']),
  headerRows: z.number().int().min(0).max(200),
  /** Index of the column with date and time, or of the date when the time stands apart. */
  dateColumn: z.number().int().min(0).max(199),
  timeColumn: z.number().int().min(0).max(199).nullable(),
  dateOrder: z.enum(['iso', 'day first', 'month first', 'unix seconds', 'unix milliseconds']),
  timeZone: z.string().min(1).max(60),
  columns: z
    .array(
      z.strictObject({
        index: z.number().int().min(0).max(199),
        quantity: z.enum(quantityNames),
        unit: z.enum(['°C', '°F', 'K', '%', 'fraction', 'm/s', 'km/h']),
      }),
    )
    .min(1)
    .max(20),
})
export type LoggerReading = z.infer<typeof loggerReading>

export interface BadRow {
  line: number
  text: string
  reason: string
}

/** What one column seems to hold; shown so that a person sees what the guess rests on. */
export interface LoggerColumnGuess {
  index: number
  header: string
  quantity: SeriesQuantity | null
  unit: LoggerReading['columns'][number]['unit'] | null
  /** `clear`: named by the file; `likely`: to be confirmed; `none`: not read unless a person says what it is. */
  certainty: 'clear' | 'likely' | 'none'
  because: string
}

/** Something the file does not settle: the part of the reading it is about, and a sentence that asks. */
export interface LoggerQuestion {
  about: keyof LoggerReading
  sentence: string
}

export interface LoggerPreview {
  upload: string
  fileName: string
  bytes: number
  sha256: string
  /** Set when the same bytes are already in this record. */
  alreadyRead: { entry: string; bay: string; at: string } | null
  guess: LoggerReading | null
  /** Why nothing could be guessed, in one sentence. */
  trouble: string | null
  header: string[]
  /** The first lines from line 1 on, cut into cells: the heading and some rows below it. */
  firstLines: string[][]
  columns: LoggerColumnGuess[]
  questions: LoggerQuestion[]
}

export interface LoggerCheck {
  /** Rows below the heading: the good and the bad. */
  rows: number
  /** Rows with nothing wrong; those that repeat others are among them and are kept once. */
  good: number
  badCount: number
  /** Of the bad rows, those of which a sound value is kept. */
  partlyKept: number
  /** The first 200, by line. */
  bad: BadRow[]
  firstAt: string | null
  lastAt: string | null
  perColumn: {
    index: number
    quantity: SeriesQuantity
    good: number
    min: number | null
    max: number | null
  }[]
  /** Rows that repeat another row of the file, and rows whose readings are in the record already. */
  duplicates: number
  /** Where readings that are in the record already came from, in words. */
  alreadyInRecord: string[]
  /** The file runs from the newest row to the oldest; it is turned round. */
  newestFirst: boolean
  /** Hours that the clock change skips or repeats, in words. */
  clockChanges: string[]
  sample: { at: string; values: (number | null)[] }[]
}

export type ImportEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; entry: string; readings: number; refused: number }
