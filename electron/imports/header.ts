import { fieldsOfLines, type Separator } from './fields.ts'

const unitCell =
  /^[[(]?\s*(?:°?\s?[CFK]|deg\s?[CF]|%.{0,4}|m\/s|km\/h|hpa|mbar|pa|ppm|v|lux|[dmyhs:./\- ]{2,})\s*[\])]?$/i

/**
 * Returns one name a column from the lines above the data. A row of units under a row of names is joined to it:
 * "Temperature" over "°C" is "Temperature °C".
 */
export function headerOf(linesAbove: readonly string[], separator: Separator, columns: number): string[] {
  const rows = fieldsOfLines(linesAbove, separator).map((cells) => cells?.map((cell) => cell.trim()) ?? [])
  const last = rows.findLastIndex((cells) => cells.some((cell) => cell !== ''))
  if (last === -1 || rows[last]!.length < 2) return Array.from({ length: columns }, () => '')
  const names = rows[last]!
  const above = rows[last - 1]
  const isUnits = names.every((cell) => cell === '' || unitCell.test(cell))
  if (!isUnits || above === undefined || above.length < 2) return names
  const width = Math.max(names.length, above.length)
  return Array.from({ length: width }, (_, i) => `${above[i] ?? ''} ${names[i] ?? ''}`.trim())
}
