import { Button, Modal, Textarea } from '@mantine/core'
import { useState } from 'react'
import type { Alert } from '#model/watch/alert.ts'
import { nowMs } from '../app/clock.ts'
import { useJob } from '../app/job.tsx'
import { useRecorder } from '../app/recorder.ts'
import { troubleOf } from '../app/trouble.ts'
import { words } from '../app/words.ts'
import classes from './answer-alert.module.css'
import { Banner } from './banner.tsx'
import { siteIso } from './site-time.ts'

const say = words.today.alert

interface AnswerAlertProps {
  alert: Alert
  bay: string
  onClose: () => void
}

/** An answer is an entry of its own: who, when, what was done. */
export default function AnswerAlert({ alert, bay, onClose }: AnswerAlertProps) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const [answer, setAnswer] = useState('')
  const [tried, setTried] = useState(false)
  const save = () => {
    setTried(true)
    if (answer.trim() === '') return
    recorder.mutate(
      [
        {
          kind: 'alert-answered',
          subject: bay,
          happenedAt: siteIso(nowMs(), zone),
          body: { alert: alert.id, answer: answer.trim() },
        },
      ],
      { onSuccess: onClose },
    )
  }
  return (
    <Modal opened onClose={onClose} title={say.answerTitle} size="lg">
      <div className={classes.form}>
        <p>
          <strong>{alert.title}</strong>
        </p>
        <p>{alert.whatToDo}</p>
        <Textarea
          data-autofocus
          label={say.answerLabel}
          description={say.answerHelp}
          error={tried && answer.trim() === '' ? say.answerNeeded : undefined}
          autosize
          minRows={3}
          value={answer}
          onChange={(event) => setAnswer(event.currentTarget.value)}
        />
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <Button onClick={save} loading={recorder.isPending}>
          {say.save}
        </Button>
      </div>
    </Modal>
  )
}
