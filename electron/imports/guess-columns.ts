import type { LoggerColumnGuess, LoggerReading } from '#model/contract/logger-file.ts'
import { type SeriesQuantity, seriesQuantities } from '#model/record/climate.ts'
import type { LoggerUnit } from './convert.ts'
import { meaningOfHeader } from './header-words.ts'
import { type Decimal, numberOf } from './numbers.ts'

/** Returns for each column what it seems to hold and how sure that is, from its name and its numbers. */
export function columnsOf(
  header: readonly string[],
  data: readonly string[][],
  decimal: Decimal,
  taken: ReadonlySet<number>,
): LoggerColumnGuess[] {
  const width = data[0]?.length ?? 0
  const used = new Set<SeriesQuantity>()
  return Array.from({ length: width }, (_, index) => index)
    .filter((index) => !taken.has(index))
    .map((index) => {
      const numbers = data.map((cells) => numberOf(cells[index]!, decimal)).filter((value) => value !== null)
      const guess = columnGuess(index, header[index] ?? '', numbers)
      if (guess.quantity === null) return guess
      if (used.has(guess.quantity)) {
        const { label } = seriesQuantities[guess.quantity]
        return {
          ...guess,
          certainty: 'likely',
          because: `${guess.because} It is a second column of ${label.toLowerCase()}.`,
        }
      }
      used.add(guess.quantity)
      return guess
    })
}

function columnGuess(index: number, header: string, numbers: readonly number[]): LoggerColumnGuess {
  const nothing = (because: string): LoggerColumnGuess => {
    return { index, header, quantity: null, unit: null, certainty: 'none', because }
  }
  if (numbers.length === 0) return nothing('It holds no numbers.')
  const meaning = meaningOfHeader(header)
  if (meaning.quantity === null || meaning.unit === null) {
    return nothing(header === '' ? 'It has no name.' : `“${header}” names no quantity that is kept.`)
  }
  const { quantity } = meaning
  const sorted = numbers.toSorted((a, b) => a - b)
  const typical = sorted[Math.floor(sorted.length / 2)]!
  const largest = sorted.at(-1)!
  const guess = (unit: LoggerUnit, certainty: 'clear' | 'likely', because: string): LoggerColumnGuess => {
    return { index, header, quantity, unit, certainty, because }
  }
  if (quantity === 'rhPercent' || quantity === 'outsideRhPercent') {
    return largest <= 1 && typical > 0
      ? guess('fraction', 'likely', `“${header}” names it, and no value is above 1, so 1 is taken for 100 %.`)
      : guess('%', meaning.certainty === 'clear' ? 'clear' : 'likely', `“${header}” names it.`)
  }
  const namesUnit = meaning.certainty === 'clear'
  if (meaning.unit === '°C' && !namesUnit) {
    if (typical > 200)
      return guess('K', 'likely', `“${header}” names no unit; about ${typical} can only be kelvin.`)
    if (typical > 45) return guess('°F', 'likely', `“${header}” names no unit; about ${typical} suits °F.`)
  }
  return guess(
    meaning.unit,
    namesUnit ? 'clear' : 'likely',
    namesUnit ? `“${header}” names it.` : `“${header}” suits it; the file does not name the unit.`,
  )
}

/** What a reading starts with when no column could be named: the first column of numbers, as a question. */
export function firstNumberColumn(
  guesses: readonly LoggerColumnGuess[],
  data: readonly string[][],
  decimal: Decimal,
): LoggerReading['columns'][number] | null {
  const found = guesses.find(
    ({ index }) =>
      data.filter((cells) => numberOf(cells[index]!, decimal) !== null).length >= 0.8 * data.length,
  )
  return found === undefined ? null : { index: found.index, quantity: 'airC', unit: '°C' }
}
