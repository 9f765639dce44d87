import { type Finding, keepsLimit, type Limit } from '#model/rules/limit.ts'
import { words } from '../app/words.ts'
import classes from './check-lines.module.css'
import { Mark } from './mark.tsx'
import { quantityText } from './number-text.ts'

interface CheckLinesProps {
  findings: readonly Finding[]
  text: (limit: Limit) => string
  /** Units of findings that these rules set no limit for. */
  units?: Readonly<Record<string, string>>
}

/** Findings of a check as lines: the value, its limit, kept or not; what is not known says so. */
export function CheckLines({ findings, text, units = {} }: CheckLinesProps) {
  return (
    <ul className={classes.lines}>
      {findings.map(({ what, value, limit }) => (
        <li key={`${what} ${limit?.operator ?? ''}`} className={classes.line}>
          <span>{what}</span>
          <strong>
            {value === null
              ? words.notKnown
              : typeof value === 'number'
                ? quantityText(value, limit?.unit ?? units[what] ?? '')
                : value}
          </strong>
          <Kept value={value} limit={limit} />
          <span className={classes.limit}>
            {limit === null ? words.live.noLimit : `${text(limit)}, ${limit.source}`}
          </span>
        </li>
      ))}
    </ul>
  )
}

function Kept({ value, limit }: Pick<Finding, 'value' | 'limit'>) {
  if (limit === null) return <span />
  if (typeof value !== 'number')
    return <Mark shape="diamondAsk" tone="unproven" word={words.conditions.unknown} />
  return keepsLimit(value, limit) ? (
    <Mark shape="discTick" tone="good" word={words.live.kept} />
  ) : (
    <Mark shape="squareCross" tone="stop" word={words.live.notKept} />
  )
}
