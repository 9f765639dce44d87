import { Button, Modal, Textarea } from '@mantine/core'
import { useState } from 'react'
import type { StoryEntry } from '#model/record/entry.ts'
import { nowMs } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { useActOn, useMayNot } from '../../app/use-may-not.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { siteIso } from '../../parts/site-time.ts'
import classes from './entries.module.css'

const say = words.entries

/** "Entered in error": the fact no longer counts, and stays readable with the reason. */
export function WithdrawEntry({ fact }: { fact: StoryEntry }) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const [opened, setOpened] = useState(false)
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const version = fact.versions.at(-1)!
  const mayNot = useMayNot(fact.kind, useActOn(version, 'withdraw'))
  const withdraw = () => {
    setTried(true)
    if (reason.trim() === '') return
    recorder.mutate(
      [
        {
          kind: 'entry-withdrawn',
          subject: fact.subject,
          happenedAt: siteIso(nowMs(), zone),
          body: {},
          corrects: version.id,
          reason: reason.trim(),
        },
      ],
      { onSuccess: () => setOpened(false) },
    )
  }
  return (
    <>
      <Button variant="default" onClick={() => setOpened(true)}>
        {say.withdraw}
      </Button>
      <Modal opened={opened} onClose={() => setOpened(false)} title={say.withdrawTitle} size="lg">
        <div className={classes.dialog}>
          <p>{say.withdrawLead}</p>
          <Textarea
            data-autofocus
            label={say.withdrawReason}
            error={tried && reason.trim() === '' ? say.withdrawNeeded : undefined}
            autosize
            minRows={2}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          {mayNot !== null && recorder.error === null && <Note tone="act">{mayNot}</Note>}
          {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
          <Button onClick={withdraw} loading={recorder.isPending}>
            {say.withdrawDo}
          </Button>
        </div>
      </Modal>
    </>
  )
}
