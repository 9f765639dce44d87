import { Button, Modal, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Banner } from '../parts/banner.tsx'
import { Segmented } from '../parts/segmented.tsx'
import { siteIso } from '../parts/site-time.ts'
import { Waiting } from '../parts/waiting.tsx'
import { orpc } from './client.ts'
import { nowMs } from './clock.ts'
import { useJob } from './job.tsx'
import { type Fact, type LastWritten, useRecorder } from './recorder.ts'
import classes from './saved-bar.module.css'
import { troubleOf } from './trouble.ts'
import { words } from './words.ts'

const say = words.saved

/**
 * Undoes the last entry by another one, with its reason. A first writing is withdrawn; a correction is taken back by a
 * correction that says again what held before, so that the fact itself still counts.
 */
export function UndoDialog({ last, onClose }: { last: LastWritten; onClose: () => void }) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const history = useQuery(orpc.record.history.queryOptions({ input: { entry: last.entry } }))
  const [picked, setPicked] = useState<string | null>(null)
  const [other, setOther] = useState('')
  const reason = other.trim() === '' ? picked : other.trim()
  const versions = history.data?.versions ?? []
  const before = versions.slice(
    0,
    versions.findIndex(({ id }) => id === last.entry),
  )
  const back = before.findLast(({ kind }) => kind !== 'entry-withdrawn')
  const undone: Fact =
    back === undefined
      ? { kind: 'entry-withdrawn', happenedAt: siteIso(nowMs(), zone), body: {} }
      : {
          kind: back.kind,
          happenedAt: new Date(back.happenedAt).toISOString(),
          body: back.body,
          answers: back.answers,
          source: back.source,
        }
  const undo = () =>
    recorder.mutate([{ ...undone, subject: last.subject, corrects: last.entry, reason: reason ?? '' }], {
      onSuccess: onClose,
    })
  return (
    <Modal opened onClose={onClose} title={say.undoTitle} size="lg">
      <div className={classes.undo}>
        {history.isPending && <Waiting />}
        {history.error !== null && <Banner trouble={troubleOf(history.error)} />}
        <p>{back === undefined ? say.undoLead : say.undoCorrectionLead}</p>
        <Segmented
          label={say.undoReason}
          options={Object.fromEntries(say.undoReasons.map((text) => [text, text]))}
          value={picked}
          onChange={setPicked}
        />
        <TextInput
          label={say.undoOther}
          value={other}
          onChange={(event) => setOther(event.currentTarget.value)}
        />
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <Button
          onClick={undo}
          disabled={reason === null || history.data === undefined}
          loading={recorder.isPending}
        >
          {back === undefined ? say.undoDo : say.undoCorrectionDo}
        </Button>
      </div>
    </Modal>
  )
}
