import { stat } from 'node:fs/promises'
import type { BadRow, LoggerReading } from '#model/contract/logger-file.ts'
import { InputError } from '#model/errors.ts'
import { type Placed, placeInTime, skippedReason } from './clock-change.ts'
import { fieldsOfLines } from './fields.ts'
import { GrowingNumbers } from './growing.ts'
import { headerOf } from './header.ts'
import { type LineBlock, linesOf, longestLine, shownLine, textOfLines } from './lines.ts'
import { type Problems, rowReader } from './row-reader.ts'
import { newestFirst, orderFaults } from './time-order.ts'
import { type ZoneClock, zoneClock } from './zone-clock.ts'

/** A logger file, read whole. Rows are in order of time; nothing has been written. */
export interface LoggerRows {
  header: string[]
  rows: number
  /** Rows with nothing wrong, those that repeat an earlier row among them. */
  good: number
  /** Rows with something wrong. Their values that are not wrong are kept when the time is known. */
  badCount: number
  /** Of the bad rows, those of which some values are kept. */
  partlyKept: number
  bad: BadRow[]
  /** Rows that repeat an earlier row word for word. */
  duplicates: number
  newestFirst: boolean
  clockChanges: string[]
  /** Instants of the kept rows [epoch ms], ascending. */
  at: Float64Array
  /** For each chosen column the stored value of each kept row; NaN where there is none. */
  values: Float64Array[]
}

export interface ReadOptions {
  /** Epoch milliseconds; readings more than a day later than this are refused. */
  now: number
  signal?: AbortSignal | undefined
  onProgress?: ((done: number, of: number) => void) | undefined
  mostRows?: number
}

const badRowsListed = 200
/** Two years of a reading a minute. */
const mostRowsOfAFile = 1_000_000
const DAY_MS = 86_400_000

/**
 * Reads a logger file the way a person has confirmed, and checks every row.
 * @throws InputError when the reading itself cannot be (an unknown zone, a unit that does not fit) or the file has
 * more rows than one import takes; a bad row is not an error but listed.
 */
export async function readLoggerFile(
  path: string,
  reading: LoggerReading,
  options: ReadOptions,
): Promise<LoggerRows> {
  const zone = zoneClock(reading.timeZone)
  const raw = await readRows(path, reading, options)
  const [wall, fixed, lines] = [raw.wall.values, raw.fixed.values, raw.line.values]
  const values = raw.values.map((one) => one.values)
  const backwards = newestFirst(wall)
  if (backwards) for (const one of [wall, fixed, lines, ...values]) one.reverse()
  const placed = placeInTime(wall, fixed, zone)
  const lineOf = (row: number) => lines[row]!
  const late = findLateFaults(placed, zone, options.now, lineOf, (row, other) =>
    values.every((column) => Object.is(column[row], column[other])),
  )

  const at = placed.at.filter((_, row) => !late.dropped.has(row))
  const keptValues = values.map((column) => column.filter((_, row) => !late.dropped.has(row)))

  // A row can be partly bad and out of place as well: it is one bad row.
  const alsoPartly = late.faults.filter(({ line }) => raw.partly.has(line)).length
  const repeatedPartly = late.repeatedLines.filter((line) => raw.partly.has(line)).length
  const badCount = raw.badCount + late.faults.length - alsoPartly
  return {
    header: raw.header,
    rows: raw.rows,
    good: raw.rows - badCount,
    badCount,
    partlyKept: raw.partly.size - alsoPartly - repeatedPartly,
    bad: await listBadRows(path, reading, raw, late),
    duplicates: late.repeatedLines.length,
    newestFirst: backwards,
    clockChanges: placed.clockChanges,
    at,
    values: keptValues,
  }
}

interface RawRows {
  header: string[]
  rows: number
  badCount: number
  bad: BadRow[]
  /** Lines of which some values are refused and others kept. */
  partly: Set<number>
  wall: GrowingNumbers
  fixed: GrowingNumbers
  line: GrowingNumbers
  values: GrowingNumbers[]
}

async function readRows(path: string, reading: LoggerReading, options: ReadOptions): Promise<RawRows> {
  const { signal, onProgress, mostRows = mostRowsOfAFile } = options
  const { size } = await stat(path)
  const raw: RawRows = {
    header: [],
    rows: 0,
    badCount: 0,
    bad: [],
    partly: new Set(),
    wall: new GrowingNumbers(),
    fixed: new GrowingNumbers(),
    line: new GrowingNumbers(),
    values: reading.columns.map(() => new GrowingNumbers()),
  }
  const above: string[] = []
  let expected = 0
  let reader = rowReader(reading, [])
  const scratch: number[] = reading.columns.map(() => Number.NaN)

  const refuse = (line: number, text: string, reason: string) => {
    raw.badCount++
    if (raw.bad.length < badRowsListed) raw.bad.push({ line, text: shownLine(text), reason })
  }

  const takeRow = (line: number, text: string, cells: readonly string[]) => {
    const problems: Problems = []
    if (!hasWidth(cells, expected)) {
      return refuse(line, text, `This row has ${columnsText(cells.length)}; the others have ${expected}.`)
    }
    const time = reader.timeOf(cells, problems)
    if (time === null) return refuse(line, text, problems.join(' '))
    reader.valuesOf(cells, scratch, problems)
    if (problems.length === scratch.length) return refuse(line, text, problems.join(' '))
    if (problems.length > 0) {
      raw.partly.add(line)
      refuse(line, text, problems.join(' '))
    }
    raw.wall.push(time.ms)
    raw.fixed.push(time.fixed ? 1 : 0)
    raw.line.push(line)
    for (let i = 0; i < scratch.length; i++) raw.values[i]!.push(scratch[i]!)
  }

  for await (const block of linesOf(path, reading.encoding, { signal })) {
    const { firstLine, lines } = block
    const begin = Math.min(lines.length, Math.max(0, reading.headerRows - firstLine + 1))
    above.push(...lines.slice(0, begin))
    const fields = fieldsOfLines(lines.slice(begin), reading.separator)
    if (expected === 0) {
      expected = usualWidth(fields)
      if (expected > 0) {
        raw.header = headerOf(above, reading.separator, expected)
        reader = rowReader(reading, raw.header)
      }
    }
    for (let i = begin; i < lines.length; i++) {
      const text = lines[i]!
      if (text.trim() === '') continue
      if (++raw.rows > mostRows) throw tooManyRows(mostRows)
      const unreadable = whyUnreadable(block, i)
      const cells = fields[i - begin]
      if (unreadable !== null) refuse(firstLine + i, text, unreadable)
      else if (cells == null) refuse(firstLine + i, text, 'A quotation mark is opened and not closed.')
      else takeRow(firstLine + i, text, cells)
    }
    onProgress?.(block.bytesRead, size)
  }
  if (expected === 0) raw.header = headerOf(above, reading.separator, 0)
  return raw
}

function whyUnreadable({ lines, cut }: LineBlock, i: number): string | null {
  if (cut.has(i)) return `This line is longer than ${longestLine.toLocaleString('en-GB')} characters.`
  if (lines[i]!.includes('\0')) {
    return 'This line holds zero bytes; the logger may have lost power while it wrote.'
  }
  return null
}

/** The number of columns that most of the first rows have; 0 when there are none. */
function usualWidth(fields: readonly (string[] | null)[]): number {
  const counts = new Map<number, number>()
  for (const cells of fields.slice(0, 500)) {
    if (cells === null || cells.every((cell) => cell.trim() === '')) continue
    counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
  }
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0
}

/** A separator too many at the end is harmless; anything else shifts or loses values. */
function hasWidth(cells: readonly string[], expected: number): boolean {
  if (cells.length <= expected) return cells.length === expected
  return cells.slice(expected).every((cell) => cell.trim() === '')
}

interface LateFaults {
  dropped: Set<number>
  faults: { line: number; reason: string }[]
  repeatedLines: number[]
}

/** Faults that show only when all rows are known: skipped hours, the future, repeats, steps back. */
function findLateFaults(
  placed: Placed,
  zone: ZoneClock,
  now: number,
  lineOf: (row: number) => number,
  same: (row: number, other: number) => boolean,
): LateFaults {
  const found: LateFaults = { dropped: new Set(), faults: [], repeatedLines: [] }
  const fault = (row: number, reason: string) => {
    found.dropped.add(row)
    found.faults.push({ line: lineOf(row), reason })
  }
  for (const [row, change] of placed.skipped) fault(row, skippedReason(change, zone))
  const usable = placed.at.slice()
  for (let row = 0; row < usable.length; row++) {
    if (!(usable[row]! > now + DAY_MS)) continue
    usable[row] = Number.NaN
    fault(row, `The time ${instantText(placed.at[row]!)} lies in the future.`)
  }
  for (const one of orderFaults(usable, same)) {
    if (one.kind === 'again') {
      found.dropped.add(one.row)
      found.repeatedLines.push(lineOf(one.row))
    } else if (one.kind === 'other values') {
      fault(one.row, `Line ${lineOf(one.of)} has the same time with other values; the first is kept.`)
    } else {
      fault(one.row, `The time ${instantText(placed.at[one.row]!)} is out of order among the rows around it.`)
    }
  }
  return found
}

async function listBadRows(
  path: string,
  reading: LoggerReading,
  raw: RawRows,
  late: LateFaults,
): Promise<BadRow[]> {
  const first = late.faults.toSorted((a, b) => a.line - b.line).slice(0, badRowsListed)
  const lateLines = new Set([...late.faults.map(({ line }) => line), ...late.repeatedLines])
  const texts = await textOfLines(path, reading.encoding, new Set(first.map(({ line }) => line)))
  const byLine = new Map<number, BadRow>()
  for (const row of raw.bad) {
    const kept = raw.partly.has(row.line) && !lateLines.has(row.line)
    const reason = kept ? `${row.reason} The other values of the row are kept.` : row.reason
    byLine.set(row.line, { ...row, reason })
  }
  for (const { line, reason } of first) {
    const known = byLine.get(line)
    const text = shownLine(texts.get(line) ?? '')
    byLine.set(line, { line, text, reason: known === undefined ? reason : `${known.reason} ${reason}` })
  }
  return [...byLine.values()].toSorted((a, b) => a.line - b.line).slice(0, badRowsListed)
}

function tooManyRows(mostRows: number): InputError {
  return new InputError(
    'upload',
    `The file has more than ${mostRows.toLocaleString('en-GB')} rows; split it into several files.`,
  )
}

function columnsText(count: number): string {
  return count === 1 ? '1 column' : `${count} columns`
}

function instantText(at: number): string {
  return `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`
}
