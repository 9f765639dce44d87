import type { PublishedRow, PublishedTable } from './table.ts'

export interface RowError {
  row: PublishedRow
  calculated: number
  /** |calculated − expected|; infinite when the calculation gave no number. */
  error: number
  withinTolerance: boolean
}

export interface TableErrors {
  title: string
  unit: string
  rows: RowError[]
  mean: number
  p90: number
  max: number
  /** Rows outside their tolerance. */
  failed: number
}

/** The one error measure of the project: the tests gate on it and `npm run accuracy` prints it. */
export function measureTable(table: PublishedTable): TableErrors {
  const rows = table.rows.map((row): RowError => {
    const calculated = table.calculate(row.input)
    const difference = Math.abs(calculated - row.expected)
    const error = Number.isFinite(difference) ? difference : Number.POSITIVE_INFINITY
    return { row, calculated, error, withinTolerance: error <= row.tolerance }
  })
  const errors = rows.map(({ error }) => error).sort((a, b) => a - b)
  if (errors.length === 0) throw new Error(`Table “${table.title}” has no rows, so it proves nothing.`)
  return {
    title: table.title,
    unit: table.unit,
    rows,
    mean: errors.reduce((sum, error) => sum + error, 0) / errors.length,
    p90: errors[Math.ceil(errors.length * 0.9) - 1]!,
    max: errors.at(-1)!,
    failed: rows.filter(({ withinTolerance }) => !withinTolerance).length,
  }
}
