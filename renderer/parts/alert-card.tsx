import { Button } from '@mantine/core'
import { lazy, Suspense, useState } from 'react'
import { Link } from 'wouter'
import { limitText } from '#model/rules/limit.ts'
import type { Alert, Evidence } from '#model/watch/alert.ts'
import { useNow } from '../app/clock.ts'
import { useJob } from '../app/job.tsx'
import { paths } from '../app/paths.ts'
import { words } from '../app/words.ts'
import classes from './alert-card.module.css'
import { quantityText } from './number-text.ts'
import { SeverityMark } from './severity-mark.tsx'
import { momentText } from './site-time.ts'

const say = words.today.alert
/** A card is read far more often than answered: the form is loaded when it is asked for. */
const AnswerAlert = lazy(() => import('./answer-alert.tsx'))

/** An alert: how much it presses, what to do, what shows it, which limit, who answered. */
export function AlertCard({ alert, bay }: { alert: Alert; bay: string }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const [answering, setAnswering] = useState(false)
  const { answeredBy, limit } = alert
  return (
    <article className={classes.card} data-severity={alert.severity}>
      <p className={classes.head}>
        <SeverityMark severity={alert.severity} />
        <strong>{alert.title}</strong>
        <span className={classes.soft}>{say.since(momentText(alert.since, zone, now))}</span>
      </p>
      <p>{alert.whatToDo}</p>
      <EvidenceList evidence={alert.evidence} />
      {limit !== null && (
        <p className={classes.soft}>{say.limit(limitText(limit), limit.source, limit.provenance)}</p>
      )}
      <p className={classes.soft}>{say.rule(alert.rule, alert.source)}</p>
      {answeredBy === null ? (
        <Button variant="default" className={classes.answer} onClick={() => setAnswering(true)}>
          {say.answer}
        </Button>
      ) : (
        <p>
          {say.answered(nameOf(answeredBy.person), momentText(answeredBy.at, zone, now), answeredBy.answer)}
        </p>
      )}
      <Suspense fallback={null}>
        {answering && <AnswerAlert alert={alert} bay={bay} onClose={() => setAnswering(false)} />}
      </Suspense>
    </article>
  )
}

function EvidenceList({ evidence }: { evidence: readonly Evidence[] }) {
  const { zone } = useJob()
  if (evidence.length === 0) return null
  const text = ({ what, value, unit, at }: Evidence) => {
    const shown =
      typeof value === 'number' ? quantityText(value, unit) : [value, unit].filter(Boolean).join(' ')
    return `${what}: ${shown}${at === null ? '' : `, ${momentText(at, zone)}`}`
  }
  return (
    <ul className={classes.evidence} aria-label={say.evidence}>
      {evidence.map((one) => (
        <li key={`${one.what} ${one.at} ${one.entry}`}>
          {one.entry === null ? text(one) : <Link href={paths.entry(one.entry)}>{text(one)}</Link>}
        </li>
      ))}
    </ul>
  )
}
