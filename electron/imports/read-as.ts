import type { LoggerReading } from '#model/contract/logger-file.ts'
import { seriesQuantities } from '#model/record/climate.ts'
import { dateOrderWords } from './row-reader.ts'

const encodingWords: Record<LoggerReading['encoding'], string> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16 (low byte first)',
  'utf-16be': 'UTF-16 (high byte first)',
  'windows-1252': 'Windows-1252',
}
const separatorWords: Record<LoggerReading['separator'], string> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
}

/** Returns in words how a file was read, so that a dispute years later can be settled with the original bytes. */
export function readAsText(reading: LoggerReading, header: readonly string[]): string {
  const { headerRows, timeColumn, columns } = reading
  const named = (index: number) => `column ${index + 1}${header[index] ? ` “${header[index]}”` : ''}`
  const layout = [
    encodingWords[reading.encoding],
    separatorWords[reading.separator],
    `decimal ${reading.decimal === ',' ? 'comma' : 'point'}`,
    headerRows === 1 ? '1 heading row' : `${headerRows} heading rows`,
    dateOrderWords[reading.dateOrder],
    reading.timeZone,
  ].join(', ')
  const time = `time in ${named(reading.dateColumn)}${timeColumn === null ? '' : ` and ${named(timeColumn)}`}`
  const values = columns.map(
    ({ index, quantity, unit }) =>
      `${named(index)} as ${seriesQuantities[quantity].label.toLowerCase()} in ${unit}`,
  )
  return `${layout}; ${[time, ...values].join('; ')}`.slice(0, 4000)
}
