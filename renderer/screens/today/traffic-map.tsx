import { Link } from 'wouter'
import type { TodayLine, TrafficPermission } from '#model/watch/today.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { Section } from '../../parts/page.tsx'
import { nearText } from '../../parts/site-time.ts'
import classes from './today.module.css'

const say = words.today.traffic
const marks: Record<TrafficPermission['now'], { shape: Shape; tone: Tone }> = {
  nothing: { shape: 'octagonBar', tone: 'stop' },
  foot: { shape: 'ringDot', tone: 'watch' },
  boards: { shape: 'layers', tone: 'watch' },
  free: { shape: 'discTick', tone: 'good' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
}

/** Who may walk where now, and what comes next. */
export function TrafficMap({ lines }: { lines: readonly TodayLine[] }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const laid = lines.filter(({ traffic }) => traffic !== null)
  if (laid.length === 0) return null
  const nextText = ({ next }: TrafficPermission) => {
    if (next === null) return null
    return next.at === null
      ? say.nextUnknown(say.levels[next.what])
      : say.next(say.levels[next.what], nearText(next.at, now, zone))
  }
  return (
    <Section title={say.title}>
      <ul className={classes.sideLines}>
        {laid.map(({ bay, traffic }) => (
          <li key={bay} title={traffic!.because}>
            <p className={classes.sideHead}>
              <Link href={paths.bay(bay)}>{nameOf(bay)}</Link>
              <Mark {...marks[traffic!.now]} word={say.levels[traffic!.now]} />
            </p>
            <p className={classes.because}>{nextText(traffic!) ?? traffic!.because}</p>
          </li>
        ))}
      </ul>
    </Section>
  )
}
