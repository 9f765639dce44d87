import type { LoggerReading } from '#model/contract/logger-file.ts'

export type Decimal = LoggerReading['decimal']

const withPoint = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i
const withComma = /^[+-]?(?:\d+,?\d*|,\d+)(?:e[+-]?\d+)?$/i
/** What a number may carry behind it in a cell, such as "20.5 °C" or "55 %RH". */
const unitBehind = /\s*(?:°\s?[CF]|%\s?(?:rh|r\.h\.|rf|hr)?|m\/s|km\/h|K)$/i

/**
 * Returns the number a cell holds, or null when it is not exactly one number. "1.234,5", "1 234", "NaN", "=1+1" and
 * "20.5 (ok)" are not numbers; "20.5 °C" is.
 */
export function numberOf(cell: string, decimal: Decimal): number | null {
  const pattern = decimal === '.' ? withPoint : withComma
  let text = cell
  if (!pattern.test(text)) {
    text = cell.trim().replace(unitBehind, '').replace('−', '-')
    if (!pattern.test(text)) return null
  }
  return Number(decimal === '.' ? text : text.replace(',', '.'))
}
