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
import type { LastWritten } from './last-written.ts'
import { useRecorder } from './recorder.ts'
import classes from './saved-bar.module.css'
import { troubleOf } from './trouble.ts'
import { undoingOf } from './undone.ts'
import { words } from './words.ts'

const say = words.saved

/**
 * Undoes the last entry by another one, with its reason, so that the fact says again what it said before.
 */
export function UndoDialog({ last, onClose }: { last: LastWritten; onClose: () => void }) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const history = useQuery(orpc.record.history.queryOptions({ input: { entry: last.id } }))
  const [picked, setPicked] = useState<string | null>(null)
  const [other, setOther] = useState('')
  const reason = other.trim() === '' ? picked : other.trim()
  const versions = history.data?.versions ?? []
  const undone = undoingOf(versions, last.id, siteIso(nowMs(), zone))
  const isWithdrawal = undone.kind === 'entry-withdrawn'
  const undo = () =>
    recorder.mutate([{ ...undone, subject: last.subject, corrects: last.id, reason: reason ?? '' }], {
      onSuccess: onClose,
    })
  return (
    <Modal opened onClose={onClose} title={say.undoTitle} size="lg">
      <div className={classes.undo}>
        {history.isPending && <Waiting />}
        {history.error !== null && <Banner trouble={troubleOf(history.error)} />}
        <p>{isWithdrawal ? say.undoLead : say.undoCorrectionLead}</p>
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
          {isWithdrawal ? say.undoDo : say.undoCorrectionDo}
        </Button>
      </div>
    </Modal>
  )
}
