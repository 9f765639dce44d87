import { Button } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import { kinds } from '#model/record/kinds.ts'
import { Mark } from '../parts/mark.tsx'
import { useJob } from './job.tsx'
import { forgetLastWritten, type LastWritten } from './last-written.ts'
import { paths } from './paths.ts'
import classes from './saved-bar.module.css'
import { UndoDialog } from './undo.tsx'
import { words } from './words.ts'

/** Says what was saved last, after the answer, and offers to undo it. */
export default function SavedBar({ last }: { last: LastWritten }) {
  const { nameOf } = useJob()
  const [undoing, setUndoing] = useState<LastWritten | null>(null)
  return (
    <aside className={classes.bar} aria-label={words.saved.label}>
      <p role="status" className={classes.text}>
        <Mark shape="discTick" tone="good" word="" bare />
        {words.saved.saved(kinds[last.kind].title, nameOf(last.subject))}
      </p>
      <Button variant="subtle" component={Link} href={paths.entry(last.id)}>
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
