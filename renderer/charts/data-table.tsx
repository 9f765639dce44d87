import { chartsWords as words } from '../app/words/charts.ts'
import { numberText } from '../parts/number-text.ts'
import classes from './charts.module.css'
import type { ChartTable } from './table.ts'

const mostRows = 400

/** A chart read as a table: the same numbers, for those who cannot see the drawing or want to copy them. */
export function DataTable({ table }: { table: ChartTable }) {
  const { title, columns, rows } = table
  const numeric = columns.map((_, i) => rows.some((row) => typeof row[i] === 'number'))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className={classes.scroll} tabIndex={0} aria-label={title}>
      <table className={classes.table}>
        <caption>{title}</caption>
        <thead>
          <tr>
            {columns.map(({ name, unit }, i) => (
              <th key={name} scope="col" className={numeric[i] ? classes.number : undefined}>
                {name}
                {unit !== undefined && unit !== '' && <span className={classes.unit}> {unit}</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, mostRows).map((row, r) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row has no name but its place
            <tr key={r}>
              {columns.map(({ name }, i) => (
                <td key={name} className={numeric[i] ? classes.number : undefined}>
                  {cellText(row[i] ?? null)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length === 0 && <p>{words.noRows}</p>}
      {rows.length > mostRows && <p>{words.rows(String(mostRows), numberText(rows.length))}</p>}
    </section>
  )
}

function cellText(cell: ChartTable['rows'][number][number]): string {
  if (cell === null) return '–'
  return typeof cell === 'number' ? numberText(cell, 2) : cell
}
