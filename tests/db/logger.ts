import { appendLoggerImport, type LoggerSeries } from '#db/index.ts'
import type { CheckedEntry, LedgerEntry } from '#model/record/entry.ts'
import { entry, iso, morning, type Noting, type OpenSite } from './site.ts'

export const minute = 60_000

/** An invented room: readings every `everyMs`, warm by day. */
export function roomReadings(count: number, from = morning, everyMs = 10 * minute): LoggerSeries[] {
  const at = Float64Array.from({ length: count }, (_, i) => from + i * everyMs)
  const air = Float64Array.from({ length: count }, (_, i) => 18 + 3 * Math.sin(i / 23))
  const humidity = Float64Array.from({ length: count }, (_, i) => 60 + 10 * Math.cos(i / 31))
  return [
    { quantity: 'airC', at, value: air },
    { quantity: 'rhPercent', at, value: humidity },
  ]
}

export function csvOf(series: readonly LoggerSeries[]): Buffer {
  const lines = Array.from(series[0]!.at, (at, i) =>
    [iso(at), ...series.map((one) => one.value[i])].join(';'),
  )
  return Buffer.from(['time;air;humidity', ...lines].join('\n'))
}

export function loggerEntry(
  open: OpenSite,
  series: readonly LoggerSeries[],
  noting: Noting = {},
): CheckedEntry {
  return entry(open.site, 'logger-imported', {
    ...noting,
    body: {
      fileName: 'room.csv',
      refused: 0,
      readAs: 'UTF-8, semicolon, decimal point',
      columns: series.map((one, i) => ({ column: `column ${i + 2}`, quantity: one.quantity })),
      ...noting.body,
    },
  })
}

/** Reads a small logger file into the record. */
export function importLogger(open: OpenSite, series = roomReadings(120), noting: Noting = {}): LedgerEntry {
  return appendLoggerImport(open.record, loggerEntry(open, series, noting), series, csvOf(series), {
    recordedAt: morning + 86_400_000,
  })
}
