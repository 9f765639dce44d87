import { Button, Textarea } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { newId } from '../../../../app/ids.ts'
import { useJob } from '../../../../app/job.tsx'
import { useRecorder } from '../../../../app/recorder.ts'
import { troubleOf } from '../../../../app/trouble.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { useWriter } from '../../../../app/writer.ts'
import { Banner } from '../../../../parts/banner.tsx'
import { Segmented } from '../../../../parts/segmented.tsx'
import classes from '../fault.module.css'
import { thisMinute } from '../this-minute.ts'

const words = faultsWords.work
type How = keyof typeof words.closeOptions

/** Closes every symptom of the fault with one sentence. "Repaired and re-tested" only where it is true. */
export function CloseFault({ page, onDone }: { page: FaultPage; onDone: () => void }) {
  const { zone } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const passed = page.fault.state === 're-tested'
  const [how, setHow] = useState<How>(passed ? 'repaired' : 'accepted')
  const [note, setNote] = useState('')
  const [tried, setTried] = useState(false)
  const shut = new Set<string>(page.closed.map(({ body }) => body.defect))
  const open = page.fault.defects.filter((defect) => !shut.has(defect))
  const [ids] = useState(() => open.map(() => newId<'entry'>()))
  const problem =
    how === 'repaired' && !passed ? words.closeUntested : note.trim() === '' ? words.closeNeeded : null
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (problem !== null) return
    const happenedAt = thisMinute(zone)
    const facts = open.map((defect, i) => ({
      id: ids[i],
      kind: 'defect-closed' as const,
      subject: page.fault.bay,
      happenedAt,
      body: { defect, how, note: note.trim() },
    }))
    recorder.mutate(facts, { onSuccess: onDone })
  }
  return (
    <form className={classes.inlineForm} onSubmit={save} noValidate>
      <h3 className={classes.formTitle}>{words.close}</h3>
      <Segmented
        label={words.closeHow}
        options={words.closeOptions}
        value={how}
        onChange={(next) => setHow(next as How)}
      />
      <Textarea
        label={words.closeNote}
        autosize
        minRows={2}
        value={note}
        error={tried && note.trim() === '' ? words.closeNeeded : undefined}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      {tried && problem !== null && (
        <p role="alert" className={classes.wrong}>
          {problem}
        </p>
      )}
      {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
      <div className={classes.acts}>
        <Button type="submit" disabled={writer === null} loading={recorder.isPending}>
          {words.saveClose}
        </Button>
        <Button variant="subtle" onClick={onDone}>
          {faultsWords.answer.close}
        </Button>
        {writer === null && <span className={classes.soft}>{allWords.trouble.nobodyWrites}</span>}
      </div>
    </form>
  )
}
