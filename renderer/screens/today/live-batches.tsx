import { Link } from 'wouter'
import type { LiveBatch, TodayLine } from '#model/watch/today.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Mark } from '../../parts/mark.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './today.module.css'

const say = words.today.batches

/** Batches that are still workable, the shortest first; the minutes run down on screen. */
export function LiveBatches({ lines, at }: { lines: readonly TodayLine[]; at: number }) {
  const { nameOf } = useJob()
  const now = useNow()
  const gone = Math.max(0, (now - at) / 60_000)
  const live = lines
    .flatMap(({ bay, batches }) =>
      batches.map((batch) => ({ bay, batch, left: Math.floor(batch.minutesLeft - gone) })),
    )
    .sort((a, b) => a.left - b.left)
  if (live.length === 0) return null
  return (
    <Section title={say.title}>
      <ul className={classes.batches}>
        {live.map(({ bay, batch, left }) => (
          <li key={batch.entry} className={classes.batch} data-short={isShort(batch, left) || undefined}>
            <p className={classes.minutes}>
              {left > 0 ? say.left(left) : say.over(-left)}
              {isShort(batch, left) && (
                <Mark
                  shape={left > 0 ? 'trianglePoint' : 'octagonBar'}
                  tone={left > 0 ? 'act' : 'stop'}
                  word=""
                  bare
                />
              )}
            </p>
            <p>
              <Link href={paths.bay(bay)}>{say.batch(batch.number, nameOf(bay))}</Link>
            </p>
            <p className={classes.because}>{batch.because}</p>
          </li>
        ))}
      </ul>
    </Section>
  )
}

function isShort({ of }: LiveBatch, left: number): boolean {
  return left <= of * 0.2
}
