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
  firstLines: string[][]
}

export interface LoggerCheck {
  rows: number
  good: number
  badCount: number
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
  duplicates: number
  /** Hours that the clock change skips or repeats, in words. */
  clockChanges: string[]
  sample: { at: string; values: (number | null)[] }[]
}

export type ImportEvent =
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'done'; entry: string; readings: number; refused: number }
