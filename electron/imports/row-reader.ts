import type { LoggerReading } from '#model/contract/logger-file.ts'
import { InputError } from '#model/errors.ts'
import { seriesQuantities } from '#model/record/climate.ts'
import { conversionTo, unitsOf } from './convert.ts'
import { numberOf } from './numbers.ts'
import { dayOf, timeOf, type WallClock, wallClockOf } from './wall-clock.ts'

/** Sentences on what is wrong with a row; empty when nothing is. */
export type Problems = string[]

export interface RowReader {
  /** Returns the wall clock of a row, or null with a problem added. */
  timeOf: (cells: readonly string[], problems: Problems) => WallClock | null
  /** Writes the value of each chosen column, NaN where there is none, and adds a problem for each of those. */
  valuesOf: (cells: readonly string[], into: number[], problems: Problems) => void
}

/**
 * Returns what reads one row the way a person has confirmed.
 * @param header the columns' names, for the sentences.
 * @throws InputError when a unit does not fit its quantity or a column is used twice.
 */
export function rowReader(reading: LoggerReading, header: readonly string[]): RowReader {
  requireDistinctColumns(reading)
  const named = (index: number) => `Column ${index + 1}${header[index] ? ` “${header[index]}”` : ''}`
  const columns = reading.columns.map(({ index, quantity, unit }, place) => {
    const { label, hard, unit: storedUnit } = seriesQuantities[quantity]
    const convert = conversionTo(quantity, unit)
    if (convert === null) {
      throw new InputError(
        `reading.columns.${place}.unit`,
        `${label} cannot be read in ${unit}; choose ${unitsOf(quantity).join(', ')}.`,
      )
    }
    return { index, convert, name: named(index), least: hard[0], most: hard[1], storedUnit }
  })

  const timeProblem = (cell: string, index: number, problems: Problems) => {
    problems.push(
      cell.trim() === ''
        ? `${named(index)}: the time is missing.`
        : `${named(index)}: “${shownCell(cell)}” is not a date and time read as ${dateOrderWords[reading.dateOrder]}.`,
    )
    return null
  }

  return {
    timeOf: (cells, problems) => {
      const date = cells[reading.dateColumn] ?? ''
      const wall = wallClockOf(date, reading.dateOrder)
      if (wall === null) return timeProblem(date, reading.dateColumn, problems)
      if (reading.timeColumn === null) return wall
      const cell = cells[reading.timeColumn] ?? ''
      const time = timeOf(cell)
      if (time === null) return timeProblem(cell, reading.timeColumn, problems)
      return { ms: dayOf(wall) + time.ms, fixed: time.fixed }
    },
    valuesOf: (cells, into, problems) => {
      for (let i = 0; i < columns.length; i++) {
        const { index, convert, name, least, most, storedUnit } = columns[i]!
        const cell = cells[index] ?? ''
        const read = numberOf(cell, reading.decimal)
        into[i] = Number.NaN
        if (read === null) {
          problems.push(
            cell.trim() === ''
              ? `${name}: the value is missing.`
              : `${name}: “${shownCell(cell)}” is not a number with a decimal ${reading.decimal === ',' ? 'comma' : 'point'}.`,
          )
          continue
        }
        const value = convert(read)
        if (value >= least && value <= most) into[i] = value
        else {
          problems.push(
            `${name}: ${shownCell(cell)} is outside what can be recorded (${least} to ${most} ${storedUnit}).`,
          )
        }
      }
    },
  }
}

export const dateOrderWords: Record<LoggerReading['dateOrder'], string> = {
  iso: 'year, month, day',
  'day first': 'day first',
  'month first': 'month first',
  'unix seconds': 'Unix seconds',
  'unix milliseconds': 'Unix milliseconds',
}

function requireDistinctColumns({ dateColumn, timeColumn, columns }: LoggerReading): void {
  const used = new Set([dateColumn])
  const claim = (field: string, index: number) => {
    if (used.has(index)) throw new InputError(field, `Column ${index + 1} is chosen twice; choose another.`)
    used.add(index)
  }
  if (timeColumn !== null) claim('reading.timeColumn', timeColumn)
  columns.forEach(({ index }, place) => {
    claim(`reading.columns.${place}.index`, index)
  })
}

function shownCell(cell: string): string {
  const text = cell.trim()
  return text.length > 40 ? `${text.slice(0, 39)}…` : text
}
