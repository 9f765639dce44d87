import type { WayFound } from '#model/drying/what-if/shapes.ts'
import { waysWords } from '../../app/words/ways.ts'
import { timeTicks } from '../../charts/time-ticks.ts'
import { type Clock, isWorkedOut, likelyCell, type WayColumn } from './rows.ts'
import classes from './ways.module.css'

const words = waysWords.ranges
const dayMs = 86_400_000

interface WaysRangesProps {
  columns: readonly WayColumn[]
  clock: Clock
}

/** The date range of each way on one axis of time: the picture of the first two lines of the table. */
export function WaysRanges({ columns, clock }: WaysRangesProps) {
  const { zone, now } = clock
  const dates = columns.flatMap(({ found: { p10, p50, p90 } }) =>
    [p10, p50, p90].flatMap((iso) => (iso === null ? [] : [Date.parse(iso)])),
  )
  if (dates.length === 0) return null
  const from = now - dayMs
  const until = Math.max(...dates, now + 14 * dayMs) + 4 * dayMs
  const at = (ms: number) => `${((100 * (ms - from)) / (until - from)).toFixed(2)}%`
  const all = timeTicks(from, until, zone, 9)
  // A label at the very end would stand outside.
  const ticks = all.filter(({ at: when }) => (when - from) / (until - from) < 0.92)
  return (
    <figure className={classes.ranges} aria-label={words.label}>
      <div className={classes.rangeLine}>
        <span />
        <svg className={classes.axis} width="100%" height="24" aria-hidden="true">
          {ticks.map(({ at: when, label }) => (
            <text key={when} x={at(when)} y="17">
              {label}
            </text>
          ))}
        </svg>
      </div>
      {columns.filter(isWorkedOut).map(({ found }) => (
        <div key={found.way} className={classes.rangeLine}>
          <span className={classes.rangeName}>{waysWords.names[found.way]}</span>
          <svg
            className={classes.range}
            width="100%"
            height="30"
            role="img"
            aria-label={`${waysWords.names[found.way]}: ${likelyCell(found, clock).main}`}
          >
            {ticks.map(({ at: when }) => (
              <line key={when} className={classes.grid} x1={at(when)} x2={at(when)} y1="0" y2="30" />
            ))}
            <line className={classes.today} x1={at(now)} x2={at(now)} y1="0" y2="30" />
            <Bars found={found} at={at} now={now} until={until} />
          </svg>
        </div>
      ))}
      <figcaption className={classes.legend}>{words.legend}</figcaption>
    </figure>
  )
}

interface BarsProps {
  found: WayFound
  at: (ms: number) => string
  now: number
  until: number
}

function Bars({ found: { p10, p50, p90 }, at, now, until }: BarsProps) {
  if (p50 === null) {
    return (
      <text className={classes.neverText} x={at(now + (until - now) * 0.01)} y="20">
        {words.never}
      </text>
    )
  }
  const [early, even] = [Date.parse(p10 ?? p50), Date.parse(p50)].map((ms) => Math.max(ms, now)) as [
    number,
    number,
  ]
  const late = p90 === null ? until : Math.max(Date.parse(p90), now)
  const width = (a: number, b: number) =>
    `${(Number.parseFloat(at(b)) - Number.parseFloat(at(a))).toFixed(2)}%`
  return (
    <>
      <rect className={classes.open} x={at(even)} width={width(even, late)} y="9" height="12" />
      <rect className={classes.full} x={at(early)} width={width(early, even)} y="6" height="18" rx="2" />
      <line className={classes.even} x1={at(even)} x2={at(even)} y1="3" y2="27" />
    </>
  )
}
