import { Link } from 'wouter'
import { type RequirementId, requirements } from '#model/audit/index.ts'
import type { AuditLine } from '#model/contract/index.ts'
import type { Why } from '#model/why.ts'
import { useJob } from '../../../app/job.tsx'
import { paths } from '../../../app/paths.ts'
import { words } from '../../../app/words.ts'
import { WhyButton } from '../../../parts/why.tsx'
import { type Standing, StandingMark, standingOf } from '../standing.tsx'
import { CellSheet } from './cell-sheet.tsx'
import classes from './matrix.module.css'

const say = words.audit

export interface Place {
  row: number
  column: number
}

interface BayRowProps {
  line: AuditLine
  row: number
  here: Place
  onHere: (place: Place) => void
  compares: boolean
  /** The requirement whose reason is open below the row. */
  opened: string | null
  onOpen: (id: RequirementId | null) => void
}

/** One bay: how much of it is met, each requirement as a mark, and below it the reason of the one that is open. */
export function BayRow({ line, row, here, onHere, compares, opened, onOpen }: BayRowProps) {
  const { nameOf } = useJob()
  const name = nameOf(line.bay)
  return (
    <>
      <tr data-opened={opened !== null || undefined}>
        <th scope="row" className={classes.bay}>
          <Link href={paths.auditBay(line.bay)}>{name}</Link>
          {compares && <Difference line={line} />}
        </th>
        <td className={classes.score}>
          <WhyButton why={whyOf(line, name)}>
            <span>{say.matrix.of(line.met, line.applicable)}</span>
          </WhyButton>
        </td>
        {requirements.map(({ id, title }, column) => {
          const cell = line.cells.find((one) => one.id === id)
          const standing = cell === undefined ? 'not known' : standingOf(cell)
          const isHere = here.row === row && here.column === column
          return (
            <td key={id} className={classes.cell}>
              <button
                type="button"
                className={classes.button}
                data-cell={`${row} ${column}`}
                tabIndex={isHere ? 0 : -1}
                aria-expanded={opened === id}
                aria-label={say.matrix.cell(`${id} ${title}`, name, say.states[standing])}
                onFocus={() => onHere({ row, column })}
                onClick={() => onOpen(opened === id ? null : id)}
              >
                <StandingMark standing={standing} bare />
                <span className={classes.word} aria-hidden>
                  {say.states[standing]}
                </span>
              </button>
            </td>
          )
        })}
      </tr>
      {opened !== null && (
        <tr>
          <td colSpan={requirements.length + 2} className={classes.sheetCell}>
            <CellSheet bay={line.bay} id={opened as RequirementId} onClose={() => onOpen(null)} />
          </td>
        </tr>
      )}
    </>
  )
}

function Difference({ line: { met, metBefore } }: { line: AuditLine }) {
  if (metBefore === null) return <span className={classes.difference}>{say.matrix.newBay}</span>
  const difference = met - metBefore
  return difference === 0 ? null : (
    <span className={classes.difference} data-worse={difference < 0 || undefined}>
      {say.matrix.since(difference)}
    </span>
  )
}

/** The number of a row answers why. */
function whyOf({ cells, met, applicable }: AuditLine, name: string): Why {
  const counts = new Map<Standing, number>()
  for (const cell of cells) {
    const standing = standingOf(cell)
    counts.set(standing, (counts.get(standing) ?? 0) + 1)
  }
  const { why } = say.matrix
  return {
    what: why.what(name),
    value: met,
    unit: why.unit(applicable),
    inputs: (Object.keys(say.states) as Standing[])
      .filter((standing) => counts.has(standing))
      .map((standing) => ({ name: say.states[standing], value: counts.get(standing)!, unit: '' })),
    formula: why.formula,
    source: 'Bayledger default',
    provenance: 'our judgement',
  }
}
