import { UnstyledButton } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import type { DueAct, TodayLine } from '#model/watch/today.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { asSentence } from '../../app/words/trouble.ts'
import { words } from '../../app/words.ts'
import { AlertCard } from '../../parts/alert-card.tsx'
import { Mark } from '../../parts/mark.tsx'
import { SeverityMark } from '../../parts/severity-mark.tsx'
import { nearText } from '../../parts/site-time.ts'
import classes from './today.module.css'

const say = words.today

/** One bay: the next act, when, why, and the button that writes it down. The rest opens below. */
export function BayLine({ line }: { line: TodayLine }) {
  const { nameOf } = useJob()
  const [opened, setOpened] = useState(false)
  const [next, ...later] = line.due
  const more = later.length + line.alerts.length
  return (
    <li className={classes.line}>
      <div className={classes.who}>
        <Link href={paths.bay(line.bay)} className={classes.bay}>
          {nameOf(line.bay)}
        </Link>
        <span className={classes.place}>{say.place(line.floorName, line.zoneName)}</span>
        {line.dayOfLife !== null && <span className={classes.place}>{say.day(line.dayOfLife)}</span>}
      </div>
      <div>
        <p className={classes.headline}>
          {line.severity !== null && <SeverityMark severity={line.severity} />} <span>{line.headline}</span>
        </p>
        {next !== undefined && (
          <div className={classes.next}>
            <Due act={next} said={line.headline.startsWith(asSentence(next.what))} />
            <RecordAct act={next} bay={line.bay} />
          </div>
        )}
        {more > 0 && (
          <UnstyledButton className={classes.more} aria-expanded={opened} onClick={() => setOpened(!opened)}>
            {opened ? say.less : say.more(later.length, line.alerts.length)}
          </UnstyledButton>
        )}
      </div>
      {opened && (
        <div className={classes.rest}>
          {later.map((act) => (
            <div key={`${act.what} ${act.at}`} className={classes.next}>
              <Due act={act} />
              <RecordAct act={act} bay={line.bay} quiet />
            </div>
          ))}
          {line.alerts.map((alert) => (
            <AlertCard key={alert.id} alert={alert} bay={line.bay} />
          ))}
        </div>
      )}
    </li>
  )
}

/** When an act is due, then what and why, unless the headline `said` it already. */
function Due({ act, said = false }: { act: DueAct; said?: boolean }) {
  const { zone } = useJob()
  const now = useNow()
  return (
    <p>
      <strong>{nearText(act.at, now, zone)}</strong>
      {act.overdue && (
        <>
          {' '}
          <Mark shape="trianglePoint" tone="act" word={say.overdue} size={17} />
        </>
      )}
      {!said && (
        <>
          <br />
          {asSentence(act.what)} <span className={classes.because}>{asSentence(act.because)}</span>
        </>
      )}
    </p>
  )
}

/** The big action: opens the form of that fact for that bay, filled in as far as it can be known. */
function RecordAct({ act, bay, quiet = false }: { act: DueAct; bay: string; quiet?: boolean }) {
  return (
    <ActionLink href={paths.recordKind(act.record, bay)} quiet={quiet}>
      {act.recordTitle}
    </ActionLink>
  )
}
