import { Button, Textarea, UnstyledButton } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { limitText } from '#model/rules/index.ts'
import type { Alert } from '#model/watch/alert.ts'
import { isOpen, rankOf } from '#model/watch/index.ts'
import { nowMs, useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { bayWords } from '../../app/words/bay.ts'
import { Banner } from '../../parts/banner.tsx'
import { SeverityMark } from '../../parts/severity-mark.tsx'
import { nearText, siteIso } from '../../parts/site-time.ts'
import classes from './bay.module.css'

const words = bayWords.alerts

interface OpenAlertsProps {
  bay: string
  alerts: readonly Alert[]
  onShow: (alert: Alert) => void
}

const atFirst = 3

/** What is open about the bay, the most pressing first, each with what to do and a place to answer. */
export function OpenAlerts({ bay, alerts, onShow }: OpenAlertsProps) {
  const [all, setAll] = useState(false)
  const open = alerts.filter(isOpen).toSorted((a, b) => rankOf(a.severity) - rankOf(b.severity))
  const shown = all ? open : open.slice(0, atFirst)
  return (
    <>
      <ul className={classes.alerts}>
        {shown.map((alert) => (
          <OpenAlert key={alert.id} bay={bay} alert={alert} onShow={() => onShow(alert)} />
        ))}
      </ul>
      {shown.length < open.length && (
        <Button variant="subtle" onClick={() => setAll(true)}>
          {words.all(open.length)}
        </Button>
      )}
    </>
  )
}

function OpenAlert({ bay, alert, onShow }: { bay: string; alert: Alert; onShow: () => void }) {
  const { zone } = useJob()
  const now = useNow()
  const [answering, setAnswering] = useState(false)
  return (
    <li className={classes.alert}>
      <SeverityMark severity={alert.severity} bare size={22} />
      <div className={classes.alertText}>
        <UnstyledButton className={classes.link} onClick={onShow}>
          <strong>{alert.title}</strong>
        </UnstyledButton>
        <p>{alert.whatToDo}</p>
        <p className={classes.soft}>
          {words.since} {nearText(alert.since, now, zone)}
          {alert.limit !== null && `, ${words.limit.toLowerCase()} ${limitText(alert.limit)}`}
        </p>
      </div>
      {!answering && (
        <Button variant="default" onClick={() => setAnswering(true)}>
          {words.answer}
        </Button>
      )}
      {answering && <AnswerForm bay={bay} alert={alert} onDone={() => setAnswering(false)} />}
    </li>
  )
}

/** No alert is closed without a sentence. */
export function AnswerForm({ bay, alert, onDone }: { bay: string; alert: Alert; onDone: () => void }) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const [answer, setAnswer] = useState('')
  const [tried, setTried] = useState(false)
  const missing = answer.trim() === ''
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (missing) return
    recorder.mutate(
      [
        {
          kind: 'alert-answered',
          subject: bay,
          happenedAt: siteIso(nowMs(), zone),
          body: { alert: alert.id, answer: answer.trim() },
        },
      ],
      { onSuccess: onDone },
    )
  }
  return (
    <form className={classes.answer} onSubmit={save} noValidate>
      <Textarea
        label={words.answerLabel}
        autosize
        minRows={2}
        data-autofocus
        value={answer}
        error={tried && missing ? words.answerNeeded : undefined}
        onChange={(event) => setAnswer(event.currentTarget.value)}
      />
      {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
      <div className={classes.row}>
        <Button type="submit" loading={recorder.isPending}>
          {words.save}
        </Button>
        <Button variant="subtle" onClick={onDone}>
          {words.cancel}
        </Button>
      </div>
    </form>
  )
}
