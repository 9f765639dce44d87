import { Button, Modal, Textarea } from '@mantine/core'
import { useState } from 'react'
import type { StoryEntry } from '#model/record/entry.ts'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import classes from './entries.module.css'

const say = words.entries

/** A withdrawal made in error is taken back: a correction of the withdrawal says again what held before it. */
export function BringBack({ fact }: { fact: StoryEntry }) {
  const recorder = useRecorder()
  const [opened, setOpened] = useState(false)
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const bringBack = () => {
    setTried(true)
    const withdrawal = fact.versions.at(-1)
    const standing = fact.versions.findLast(({ kind }) => kind !== 'entry-withdrawn')
    if (reason.trim() === '' || withdrawal === undefined || standing === undefined) return
    recorder.mutate(
      [
        {
          kind: fact.kind,
          subject: fact.subject,
          happenedAt: new Date(standing.happenedAt).toISOString(),
          body: standing.body,
          answers: standing.answers,
          source: standing.source,
          corrects: withdrawal.id,
          reason: reason.trim(),
        },
      ],
      { onSuccess: () => setOpened(false) },
    )
  }
  return (
    <>
      <Button variant="default" onClick={() => setOpened(true)}>
        {say.bringBack}
      </Button>
      <Modal opened={opened} onClose={() => setOpened(false)} title={say.bringBackTitle} size="lg">
        <div className={classes.dialog}>
          <p>{say.bringBackLead}</p>
          <Textarea
            data-autofocus
            label={say.bringBackReason}
            error={tried && reason.trim() === '' ? say.bringBackNeeded : undefined}
            autosize
            minRows={2}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
          <Button onClick={bringBack} loading={recorder.isPending}>
            {say.bringBack}
          </Button>
        </div>
      </Modal>
    </>
  )
}
