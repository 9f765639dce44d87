import { Link } from 'wouter'
import type { TodayLine } from '#model/watch/today.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Section } from '../../parts/page.tsx'
import classes from './today.module.css'

/** "What have I forgotten to write down?" */
export function GapList({ lines }: { lines: readonly TodayLine[] }) {
  const { nameOf } = useJob()
  const open = lines.filter(({ gaps }) => gaps.length > 0)
  return (
    <Section title={words.today.gaps.title}>
      {open.length === 0 && <p>{words.today.gaps.none}</p>}
      <ul className={classes.sideLines}>
        {open.map(({ bay, gaps }) => (
          <li key={bay}>
            <p className={classes.sideHead}>
              <Link href={paths.recordAbout(bay)}>{nameOf(bay)}</Link>
            </p>
            {gaps.map((gap) => (
              <p key={gap} className={classes.because}>
                {gap}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </Section>
  )
}
