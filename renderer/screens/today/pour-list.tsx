import type { PourAdvice, TodayLine } from '#model/watch/today.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './today.module.css'

const marks: Record<PourAdvice['verdict'], { shape: Shape; tone: Tone }> = {
  go: { shape: 'discTick', tone: 'good' },
  'go with protection': { shape: 'trianglePoint', tone: 'act' },
  'no-go': { shape: 'octagonBar', tone: 'stop' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
}

/** May it be poured: the advice for each planned bay with its one reason. The decision stays with people. */
export function PourList({ lines }: { lines: readonly TodayLine[] }) {
  const { nameOf } = useJob()
  const planned = lines.filter(({ pour }) => pour !== null)
  if (planned.length === 0) return null
  return (
    <Section title={words.today.pour.title}>
      <ul className={classes.sideLines}>
        {planned.map(({ bay, pour }) => (
          <li key={bay}>
            <p className={classes.sideHead}>
              <strong>{nameOf(bay)}</strong>
              <Mark {...marks[pour!.verdict]} word={words.today.pour.verdicts[pour!.verdict]} />
            </p>
            <p className={classes.because}>{pour!.because}</p>
          </li>
        ))}
      </ul>
    </Section>
  )
}
