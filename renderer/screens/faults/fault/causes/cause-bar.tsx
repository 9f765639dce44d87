import type { DiagnosedCause } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import classes from '../fault.module.css'

/** Where one band ends and the next begins [%]: unlikely, possible, supported. */
const bounds = [10, 35, 75]

/**
 * A cause as a bar: filled where something was looked at, hollow where it is possible only because nobody has looked, a
 * span where record and test disagree.
 */
export function CauseBar({ cause }: { cause: DiagnosedCause }) {
  const { probability, hollow, conflict } = cause
  const percent = (part: number) => `${(100 * part).toFixed(1)}%`
  return (
    <svg className={classes.bar} height={22} aria-hidden>
      <rect width="100%" height={22} className={classes.track} />
      {conflict !== null ? (
        <>
          <rect
            x={percent(Math.min(conflict.ifSupports, conflict.ifRefutes))}
            width={percent(Math.abs(conflict.ifSupports - conflict.ifRefutes))}
            y={8}
            height={6}
            className={classes.span}
          />
          {[conflict.ifRefutes, conflict.ifSupports].map((end) => (
            <rect key={end} x={percent(end)} width={3} height={22} className={classes.span} />
          ))}
        </>
      ) : (
        probability !== null && (
          <rect
            x={1}
            y={3}
            width={percent(probability)}
            height={16}
            className={hollow ? classes.hollow : classes.full}
          />
        )
      )}
      {bounds.map((at) => (
        <line key={at} x1={`${at}%`} x2={`${at}%`} y1={0} y2={22} className={classes.bound} />
      ))}
    </svg>
  )
}

/** What a filled, a hollow and a torn bar mean. */
export function BarKey({ hasConflict }: { hasConflict: boolean }) {
  const { key } = faultsWords.causes
  return (
    <ul className={classes.key}>
      <li>
        <svg width={34} height={16} aria-hidden>
          <rect x={1} y={1} width={32} height={14} className={classes.full} />
        </svg>
        {key.full}
      </li>
      <li>
        <svg width={34} height={16} aria-hidden>
          <rect x={2} y={2} width={30} height={12} className={classes.hollow} />
        </svg>
        {key.hollow}
      </li>
      {hasConflict && (
        <li>
          <svg width={34} height={16} aria-hidden>
            <path d="M2 1v14M32 1v14M2 8h30" className={classes.spanKey} />
          </svg>
          {key.conflict}
        </li>
      )}
    </ul>
  )
}
