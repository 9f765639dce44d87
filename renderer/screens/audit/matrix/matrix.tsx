import { type KeyboardEvent, useRef, useState } from 'react'
import { requirements } from '#model/audit/index.ts'
import type { AuditLine } from '#model/contract/index.ts'
import { words } from '../../../app/words.ts'
import classes from './matrix.module.css'
import { BayRow, type Place } from './row.tsx'

const say = words.audit.matrix
const steps: Readonly<Record<string, readonly [down: number, right: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
}

interface MatrixProps {
  lines: readonly AuditLine[]
  /** Also those that are not drawn, for the foot. */
  all: readonly AuditLine[]
  compares: boolean
}

/** A plain table, so that it can be read as one. One cell takes part in the tab order; arrows walk to the others. */
export function Matrix({ lines, all, compares }: MatrixProps) {
  const table = useRef<HTMLTableElement>(null)
  const [here, setHere] = useState<Place>({ row: 0, column: 0 })
  const [opened, setOpened] = useState<string | null>(null)

  const walk = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target.dataset.cell === undefined) return
    if (event.key === 'Escape') return setOpened(null)
    const step = steps[event.key]
    if (step === undefined) return
    event.preventDefault()
    const row = Math.min(lines.length - 1, Math.max(0, here.row + step[0]))
    const column = Math.min(requirements.length - 1, Math.max(0, here.column + step[1]))
    setHere({ row, column })
    table.current?.querySelector<HTMLElement>(`[data-cell="${row} ${column}"]`)?.focus()
  }

  return (
    <table ref={table} className={classes.matrix} data-compares={compares || undefined} onKeyDown={walk}>
      <caption className={classes.caption}>{say.caption}</caption>
      <thead>
        <tr>
          <th scope="col" className={classes.bayHead}>
            {say.bay}
          </th>
          <th scope="col" className={classes.scoreHead}>
            {say.met}
          </th>
          {requirements.map(({ id, title, asks }) => (
            <th key={id} scope="col" className={classes.head} title={asks}>
              <span className={classes.headTitle}>{title}</span>
              <span className={classes.headId}>{id}</span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map((line, row) => (
          <BayRow
            key={line.bay}
            line={line}
            row={row}
            here={here}
            onHere={setHere}
            compares={compares}
            opened={opened?.startsWith(`${line.bay} `) ? opened.slice(line.bay.length + 1) : null}
            onOpen={(id) => setOpened(id === null ? null : `${line.bay} ${id}`)}
          />
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row" colSpan={2}>
            {say.open}
          </th>
          {requirements.map(({ id }) => (
            <td key={id}>
              <OpenOn id={id} lines={all} />
            </td>
          ))}
        </tr>
      </tfoot>
    </table>
  )
}

/** On how many bays a requirement is open now; what only waits for its time does not count. */
function OpenOn({ id, lines }: { id: string; lines: readonly AuditLine[] }) {
  const count = lines.filter(({ cells }) =>
    cells.some(
      (cell) =>
        cell.id === id &&
        !cell.notYet &&
        !cell.answered &&
        (cell.state === 'not met' || cell.state === 'not known'),
    ),
  ).length
  return <span title={say.openOf(count)}>{count === 0 ? '–' : count}</span>
}
