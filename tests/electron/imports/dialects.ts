import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { TZDate } from '@date-fns/tz'
import type { LoggerReading } from '#model/contract/logger-file.ts'

/** One reading as every dialect must give it back. */
export interface Row {
  at: number
  airC: number
  rhPercent: number
}

/** A way in which a logger may write its file. All of them are made up here. */
export interface Dialect {
  name: string
  encoding: LoggerReading['encoding']
  byteOrderMark: boolean
  separator: LoggerReading['separator']
  decimal: LoggerReading['decimal']
  dateOrder: LoggerReading['dateOrder']
  /** Between the parts of a date. */
  dateMark: '-' | '/' | '.'
  timeApart: boolean
  halfDays: boolean
  withOffset: boolean
  timeZone: string
  temperature: '°C' | '°F' | 'K'
  humidity: '%' | 'fraction'
  quoted: boolean
  lineEnd: '\n' | '\r\n' | '\r'
  above: string[]
  names: { time: string; clock: string; airC: string; rh: string }
  unitsRow: boolean
  below: string[]
  newestFirst: boolean
}

export const plain: Dialect = {
  name: 'plain comma file with ISO times',
  encoding: 'utf-8',
  byteOrderMark: false,
  separator: ',',
  decimal: '.',
  dateOrder: 'iso',
  dateMark: '-',
  timeApart: false,
  halfDays: false,
  withOffset: false,
  timeZone: 'Europe/London',
  temperature: '°C',
  humidity: '%',
  quoted: false,
  lineEnd: '\n',
  above: [],
  names: { time: 'Time', clock: 'Clock', airC: 'Temperature (°C)', rh: 'Relative humidity (%)' },
  unitsRow: false,
  below: [],
  newestFirst: false,
}

const two = (value: number) => String(value).padStart(2, '0')
const decimals = (value: number, dialect: Dialect, digits: number) =>
  String(Number(value.toFixed(digits))).replace('.', dialect.decimal)

/** The cells that stand for an instant, read off the wall clock of the dialect's zone. */
function timeCells(at: number, dialect: Dialect): string[] {
  if (dialect.dateOrder === 'unix seconds') return [String(at / 1000)]
  if (dialect.dateOrder === 'unix milliseconds') return [String(at)]
  const wall = new TZDate(at, dialect.timeZone)
  const [year, month, day] = [String(wall.getFullYear()), two(wall.getMonth() + 1), two(wall.getDate())]
  const parts = {
    iso: [year, month, day],
    'day first': [day, month, year],
    'month first': [month, day, year],
  }
  const date = parts[dialect.dateOrder].join(dialect.dateMark)
  const hour = wall.getHours()
  const rest = `${two(wall.getMinutes())}:${two(wall.getSeconds())}`
  const clock = dialect.halfDays
    ? `${hour % 12 === 0 ? 12 : hour % 12}:${rest} ${hour < 12 ? 'AM' : 'PM'}`
    : `${two(hour)}:${rest}`
  const minutes = -wall.getTimezoneOffset()
  const sign = minutes < 0 ? '-' : '+'
  const offset = `${sign}${two(Math.floor(Math.abs(minutes) / 60))}:${two(Math.abs(minutes) % 60)}`
  const whole = dialect.withOffset ? `${clock}${offset}` : clock
  return dialect.timeApart ? [date, whole] : [`${date} ${whole}`]
}

function valueCells({ airC, rhPercent }: Row, dialect: Dialect): string[] {
  const air = { '°C': airC, '°F': airC * 1.8 + 32, K: airC + 273.15 }[dialect.temperature]
  const rh = dialect.humidity === '%' ? rhPercent : rhPercent / 100
  return [decimals(air, dialect, 6), decimals(rh, dialect, 6)]
}

/** Writes the rows in a dialect, as text. */
export function textIn(dialect: Dialect, rows: readonly Row[]): string {
  const cell = (text: string) => (dialect.quoted ? `"${text}"` : text)
  const line = (cells: string[]) => cells.map(cell).join(dialect.separator)
  const { time, clock, airC, rh } = dialect.names
  const apart = dialect.timeApart
  const heading = [line(apart ? [time, clock, airC, rh] : [time, airC, rh])]
  if (dialect.unitsRow) {
    const units = [dialect.temperature, '%']
    heading.push(line(apart ? ['', '', ...units] : ['', ...units]))
  }
  const ordered = dialect.newestFirst ? rows.toReversed() : rows
  const data = ordered.map((row) => line([...timeCells(row.at, dialect), ...valueCells(row, dialect)]))
  return [...dialect.above, ...heading, ...data, ...dialect.below, ''].join(dialect.lineEnd)
}

export function bytesOf(text: string, dialect: Pick<Dialect, 'encoding' | 'byteOrderMark'>): Buffer {
  const marked = dialect.byteOrderMark ? `\ufeff${text}` : text
  if (dialect.encoding === 'utf-8') return Buffer.from(marked, 'utf8')
  if (dialect.encoding === 'windows-1252') return Buffer.from(text, 'latin1')
  const little = Buffer.from(marked, 'utf16le')
  return dialect.encoding === 'utf-16le' ? little : little.swap16()
}

/** How the dialect must be read, as a person would confirm it. */
export function readingOf(dialect: Dialect): LoggerReading {
  const first = dialect.timeApart ? 2 : 1
  return {
    encoding: dialect.encoding,
    separator: dialect.separator,
    decimal: dialect.decimal,
    headerRows: dialect.above.length + 1 + (dialect.unitsRow ? 1 : 0),
    dateColumn: 0,
    timeColumn: dialect.timeApart ? 1 : null,
    dateOrder: dialect.dateOrder,
    timeZone: dialect.timeZone,
    columns: [
      { index: first, quantity: 'airC', unit: dialect.temperature },
      { index: first + 1, quantity: 'rhPercent', unit: dialect.humidity },
    ],
  }
}

/** A folder for the files of a test, removed when the test is done. */
export function fileFolder(): {
  write: (bytes: Buffer | string, name?: string) => string
  remove: () => void
} {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-imports-'))
  let count = 0
  return {
    write: (bytes, name = `file-${count++}.csv`) => {
      const path = join(folder, name)
      writeFileSync(path, bytes)
      return path
    },
    remove: () => rmSync(folder, { recursive: true }),
  }
}
