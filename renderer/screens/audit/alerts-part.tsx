import { UnstyledButton } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import type { AuditOpen } from '#model/contract/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { AlertCard } from '../../parts/alert-card.tsx'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { SeverityMark } from '../../parts/severity-mark.tsx'
import { daysText, momentText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './audit.module.css'
import { useOpen } from './use-open.ts'

const say = words.audit.alerts
type BayAlert = AuditOpen['alerts'][number]
type Group = keyof typeof say.groups

/** Alerts by age: what nobody has answered first, the oldest on top. */
export function AlertsPart() {
  const { data, error, isPending, refetch } = useOpen()
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  if (data.alerts.length === 0) return <p>{say.none}</p>
  const groups = Object.groupBy(data.alerts, groupOf)
  return (Object.keys(say.groups) as Group[]).map((group) => {
    const alerts = groups[group] ?? []
    return (
      alerts.length > 0 && (
        <Section key={group} title={`${say.groups[group]} (${alerts.length})`}>
          <ul className={classes.lines}>
            {alerts
              .toSorted((a, b) => a.since - b.since)
              .map((alert) => (
                <AlertLine key={alert.id} alert={alert} />
              ))}
          </ul>
        </Section>
      )
    )
  })
}

function groupOf({ until, answeredBy }: BayAlert): Group {
  if (until !== null) return 'ended'
  return answeredBy === null ? 'open' : 'answered'
}

function AlertLine({ alert }: { alert: BayAlert }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const [opened, setOpened] = useState(false)
  const { bay, severity, title, since, until, answeredBy } = alert
  const length = lengthText((until ?? now) - since)
  return (
    <li className={classes.line}>
      <div>
        <p>
          <Link href={paths.auditBay(bay)} className={classes.strong}>
            {nameOf(bay)}
          </Link>
        </p>
        <p className={classes.soft}>
          {until === null ? say.age(length) : say.lasted(length)}, {momentText(since, zone, now)}
        </p>
      </div>
      <div>
        <div className={classes.alertHead}>
          <SeverityMark severity={severity} /> <span className={classes.strong}>{title}</span>
          <UnstyledButton
            className={classes.more}
            aria-expanded={opened}
            aria-label={`${opened ? say.hide : say.show}: ${title}, ${nameOf(bay)}`}
            onClick={() => setOpened(!opened)}
          >
            {opened ? say.hide : say.show}
          </UnstyledButton>
        </div>
        {answeredBy !== null && (
          <p>
            {words.today.alert.answered(
              nameOf(answeredBy.person),
              momentText(answeredBy.at, zone, now),
              answeredBy.answer,
            )}
          </p>
        )}
        {opened && <AlertCard alert={alert} bay={bay} />}
      </div>
    </li>
  )
}

const hourMs = 3_600_000

/** "20 h", "12 days". */
function lengthText(ms: number): string {
  return ms < 48 * hourMs ? say.hours(Math.round(ms / hourMs)) : daysText(Math.floor(ms / (24 * hourMs)))
}
