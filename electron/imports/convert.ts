import type { LoggerReading } from '#model/contract/logger-file.ts'
import type { SeriesQuantity } from '#model/record/climate.ts'
import { seriesQuantities } from '#model/record/climate.ts'

export type LoggerUnit = LoggerReading['columns'][number]['unit']

/** Six decimals hide the rounding of a conversion and none of what a sensor can tell. */
const rounded = (value: number) => Math.round(value * 1e6) / 1e6

const toStored: Record<LoggerUnit, { unit: '°C' | '%' | 'm/s'; from: (value: number) => number }> = {
  '°C': { unit: '°C', from: (value) => value },
  '°F': { unit: '°C', from: (value) => rounded((value - 32) / 1.8) },
  K: { unit: '°C', from: (value) => rounded(value - 273.15) },
  '%': { unit: '%', from: (value) => value },
  fraction: { unit: '%', from: (value) => rounded(value * 100) },
  'm/s': { unit: 'm/s', from: (value) => value },
  'km/h': { unit: 'm/s', from: (value) => rounded(value / 3.6) },
}

/** Returns how to turn a column's numbers into the stored unit, or null when the unit cannot measure the quantity. */
export function conversionTo(quantity: SeriesQuantity, unit: LoggerUnit): ((value: number) => number) | null {
  const conversion = toStored[unit]
  return conversion.unit === seriesQuantities[quantity].unit ? conversion.from : null
}

/** The units in which a quantity can be read. */
export function unitsOf(quantity: SeriesQuantity): LoggerUnit[] {
  return (Object.keys(toStored) as LoggerUnit[]).filter((unit) => conversionTo(quantity, unit) !== null)
}
