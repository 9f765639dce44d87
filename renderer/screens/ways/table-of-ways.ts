import type { WayLacking } from '#model/drying/what-if/shapes.ts'
import { waysWords } from '../../app/words/ways.ts'
import type { ChartTable } from '../../charts/table.ts'
import { isWorkedOut, type WayColumn, type WayRow } from './rows.ts'

const words = waysWords.table

/** The table as text, for a spreadsheet or a message: the same lines and numbers as on the screen. */
export function tableOfWays(
  place: string,
  columns: readonly (WayColumn | WayLacking)[],
  rows: readonly WayRow[],
): ChartTable {
  return {
    title: `${words.caption}: ${place}`,
    columns: [
      { name: '' },
      ...columns.map((column) => ({
        name: waysWords.names[isWorkedOut(column) ? column.found.way : column.way],
      })),
    ],
    rows: rows.map(({ name, help, cells }) => [
      help === undefined ? name : `${name} (${help})`,
      ...cells.map(({ main, sub }) => (sub === undefined ? main : `${main}; ${sub}`)),
    ]),
  }
}

/** Tabs between cells and a line each: what spreadsheets take from the clipboard. */
export function tabbed({ title, columns, rows }: ChartTable): string {
  const plain = (cell: string | number | null) => String(cell ?? '').replace(/[\t\r\n]+/g, ' ')
  const lines = [columns.map(({ name }) => name), ...rows].map((cells) => cells.map(plain).join('\t'))
  return [title, ...lines, waysWords.estimate].join('\n')
}
