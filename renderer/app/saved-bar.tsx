import { Button, Modal, TextInput } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import { kinds } from '#model/record/kinds.ts'
import { Banner } from '../parts/banner.tsx'
import { Mark } from '../parts/mark.tsx'
import { Segmented } from '../parts/segmented.tsx'
import { siteIso } from '../parts/site-time.ts'
import { nowMs } from './clock.ts'
import { useJob } from './job.tsx'
import { paths } from './paths.ts'
import { forgetLastWritten, type LastWritten, useLastWritten, useRecorder } from './recorder.ts'
import classes from './saved-bar.module.css'
import { troubleOf } from './trouble.ts'
import { words } from './words.ts'

/** Says what was saved last, after the answer, and offers to undo it. */
export function SavedBar() {
  const last = useLastWritten()
  const { nameOf } = useJob()
  const [undoing, setUndoing] = useState<LastWritten | null>(null)
  if (last === null) return null
  return (
    <aside className={classes.bar} aria-label={words.saved.label}>
      <p role="status" className={classes.text}>
        <Mark shape="discTick" tone="good" word="" bare />
        {words.saved.saved(kinds[last.kind].title, nameOf(last.subject))}
      </p>
      <Button variant="subtle" component={Link} href={paths.entry(last.entry)}>
        {words.saved.show}
      </Button>
      <Button variant="default" onClick={() => setUndoing(last)}>
        {words.saved.undo}
      </Button>
      <Button variant="subtle" onClick={forgetLastWritten}>
        {words.saved.done}
      </Button>
      {undoing !== null && <UndoDialog last={undoing} onClose={() => setUndoing(null)} />}
    </aside>
  )
}

function UndoDialog({ last, onClose }: { last: LastWritten; onClose: () => void }) {
  const { zone } = useJob()
  const recorder = useRecorder()
  const [picked, setPicked] = useState<string | null>(null)
  const [other, setOther] = useState('')
  const reason = other.trim() === '' ? picked : other.trim()
  const withdraw = () =>
    recorder.mutate(
      [
        {
          kind: 'entry-withdrawn',
          subject: last.subject,
          happenedAt: siteIso(nowMs(), zone),
          body: {},
          corrects: last.entry,
          reason: reason ?? '',
        },
      ],
      { onSuccess: onClose },
    )
  return (
    <Modal opened onClose={onClose} title={words.saved.undoTitle} size="lg">
      <div className={classes.undo}>
        <p>{words.saved.undoLead}</p>
        <Segmented
          label={words.saved.undoReason}
          options={Object.fromEntries(words.saved.undoReasons.map((text) => [text, text]))}
          value={picked}
          onChange={setPicked}
        />
        <TextInput
          label={words.saved.undoOther}
          value={other}
          onChange={(event) => setOther(event.currentTarget.value)}
        />
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <Button onClick={withdraw} disabled={reason === null} loading={recorder.isPending}>
          {words.saved.undoDo}
        </Button>
      </div>
    </Modal>
  )
}
