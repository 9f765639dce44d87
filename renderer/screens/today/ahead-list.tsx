import { Link } from 'wouter'
import type { TodaySheet } from '#model/contract/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Mark } from '../../parts/mark.tsx'
import { Section } from '../../parts/page.tsx'
import { clockText, nearText } from '../../parts/site-time.ts'
import classes from './today.module.css'

const say = words.today.ahead
type Ahead = TodaySheet['ahead']

/** What comes tomorrow, bay by bay, and instruments whose check falls due by then. */
export function AheadList({ ahead }: { ahead: Ahead }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const tomorrow = ahead.filter(({ about }) => about === 'bay')
  const instruments = ahead.filter(({ about }) => about === 'instrument')
  const bays = [...new Set(tomorrow.map(({ subject }) => subject))]
  return (
    <>
      <Section title={say.title}>
        {bays.length === 0 && <p>{say.nothing}</p>}
        <ul className={classes.sideLines}>
          {bays.map((bay) => (
            <li key={bay}>
              <p className={classes.sideHead}>
                <Link href={paths.bay(bay)}>{nameOf(bay)}</Link>
              </p>
              {tomorrow
                .filter(({ subject }) => subject === bay)
                .map(({ what, at }) => (
                  <p key={`${what} ${at}`} className={classes.because}>
                    <strong>{clockText(at, zone)}</strong> {what}
                  </p>
                ))}
            </li>
          ))}
        </ul>
      </Section>
      {instruments.length > 0 && (
        <Section title={say.instruments}>
          <ul className={classes.sideLines}>
            {instruments.map(({ subject, name, what, at, overdue, because }) => (
              <li key={`${subject} ${what}`}>
                <p className={classes.sideHead}>
                  <Link href={paths.recordKind('instrument-checked', subject)}>{name}</Link>
                  {overdue && <Mark shape="trianglePoint" tone="act" word={words.today.overdue} size={17} />}
                </p>
                <p className={classes.because}>
                  {what}, {nearText(at, now, zone)}. {because}
                </p>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}
