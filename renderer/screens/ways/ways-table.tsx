import { Button } from '@mantine/core'
import type { WayId, WayLacking } from '#model/drying/what-if/shapes.ts'
import { waysWords } from '../../app/words/ways.ts'
import { Mark } from '../../parts/mark.tsx'
import { WhyButton } from '../../parts/why.tsx'
import { isWorkedOut, type WayCell, type WayColumn, type WayRow } from './rows.ts'
import classes from './ways.module.css'

const words = waysWords.table

interface WaysTableProps {
  columns: readonly (WayColumn | WayLacking)[]
  rows: readonly WayRow[]
  /** Ways that can be written down as planned. */
  plannable: readonly WayId[]
  onPlan: (way: WayId) => void
}

/** The ways beside each other: a column a way, a line a question. */
export function WaysTable({ columns, rows, plannable, onPlan }: WaysTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className={classes.scroll} tabIndex={0} aria-label={words.caption}>
      <table className={classes.table}>
        <caption className={classes.hidden}>{words.caption}</caption>
        <thead>
          <tr>
            <td />
            {columns.map((column) => (
              <th key={wayOf(column)} scope="col">
                {waysWords.names[wayOf(column)]}
                <HeadMark column={column} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            <tr key={row.name} className={row.begins === true ? classes.begins : undefined}>
              <th scope="row">
                {row.name}
                {row.help !== undefined && <span className={classes.help}>{row.help}</span>}
              </th>
              {columns.map((column, i) => {
                if (isWorkedOut(column))
                  return (
                    <Cell
                      key={wayOf(column)}
                      cell={row.cells[i]!}
                      way={waysWords.names[wayOf(column)].toLowerCase()}
                      strong={r === 0}
                    />
                  )
                return r === 0 ? (
                  <td key={wayOf(column)} rowSpan={rows.length} className={classes.lacking}>
                    <strong>{words.lacking}</strong>
                    {column.lacks.map((line) => (
                      <p key={line}>{line}</p>
                    ))}
                  </td>
                ) : null
              })}
            </tr>
          ))}
          <tr className={`${classes.begins} ${classes.acts}`}>
            <th scope="row">{words.act}</th>
            {columns.map((column) => (
              <td key={wayOf(column)}>
                {isWorkedOut(column) && plannable.includes(column.found.way) && (
                  <Button
                    variant="default"
                    size="md"
                    className={classes.plan}
                    aria-label={words.noteFor(waysWords.names[column.found.way])}
                    onClick={() => onPlan(column.found.way)}
                  >
                    {words.note}
                  </Button>
                )}
              </td>
            ))}
          </tr>
        </tbody>
      </table>
    </section>
  )
}

const wayOf = (column: WayColumn | WayLacking): WayId => (isWorkedOut(column) ? column.found.way : column.way)

function HeadMark({ column }: { column: WayColumn | WayLacking }) {
  if (!isWorkedOut(column)) {
    return (
      <span className={classes.headMark}>
        <Mark shape="diamondAsk" tone="unproven" word={words.notKnown} size={17} />
      </span>
    )
  }
  if (!column.found.cautions.some(({ stops }) => stops)) return null
  return (
    <span className={classes.headMark}>
      <Mark shape="octagonBar" tone="stop" word={words.notYet} size={17} />
    </span>
  )
}

function Cell({ cell, way, strong }: { cell: WayCell; way: string; strong: boolean }) {
  return (
    <td className={cell.quiet === true ? classes.quiet : undefined}>
      <span className={strong ? classes.date : classes.main}>{cell.main}</span>{' '}
      {cell.why != null && (
        <span className={classes.why}>
          <WhyButton why={{ ...cell.why, what: `${cell.why.what}, ${way}` }} />
        </span>
      )}
      {cell.sub !== undefined && <span className={classes.sub}>{cell.sub}</span>}
    </td>
  )
}
