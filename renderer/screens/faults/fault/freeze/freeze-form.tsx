import { Button, MultiSelect, Progress, Textarea } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { FaultPage, FreezeStep } from '#model/contract/faults.ts'
import type { BayId, EntryId } from '#model/record/ids.ts'
import { client } from '../../../../app/client.ts'
import { newId } from '../../../../app/ids.ts'
import { useJob } from '../../../../app/job.tsx'
import { useLongWork } from '../../../../app/long-work.ts'
import { withPin } from '../../../../app/pin-ask.ts'
import { troubleOf } from '../../../../app/trouble.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { useWriter } from '../../../../app/writer.ts'
import { Banner, Note } from '../../../../parts/banner.tsx'
import classes from '../fault.module.css'
import { baysBeside } from './bays-beside.ts'

const words = faultsWords.freeze

interface FreezeFormProps {
  page: FaultPage
  onDone: () => void
  onLeave: () => void
}

/** Which bays, and why; then the report and the bundle are made and the entry is written. */
export function FreezeForm({ page, onDone, onLeave }: FreezeFormProps) {
  const { id: project, outline, nameOf } = useJob()
  const person = useWriter()
  const queries = useQueryClient()
  const { bay, id: defect } = page.fault
  const [beside, setBeside] = useState<string[]>(() => baysBeside(outline, bay))
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  // The same however often it is pressed: a set of evidence is written once.
  const [entry] = useState(() => newId<'entry'>())
  const [step, setStep] = useState<FreezeStep>('report')
  const { state, start, stop } = useLongWork<EntryId>()
  const lacksReason = reason.trim() === ''
  const freeze = () => {
    setTried(true)
    if (lacksReason || person === null) return
    void start(async (signal, progress) => {
      const bays = [bay, ...(beside as BayId[])]
      const asked = { entry, defect, project, person, bays, reason: reason.trim() }
      return withPin(async () => {
        for await (const event of await client.faults.freeze(asked, { signal })) {
          if (event.kind === 'done') {
            await queries.invalidateQueries()
            onDone()
            return event.entry
          }
          setStep(event.step)
          progress(event.done, event.of)
        }
        return null
      })
    })
  }
  return (
    <div className={classes.inlineForm}>
      <h3 className={classes.formTitle}>{words.formTitle}</h3>
      <p className={classes.soft}>{words.lead}</p>
      <MultiSelect
        label={words.bays}
        description={`${words.baysHelp} ${nameOf(bay)}: ${words.ownBay}.`}
        placeholder={words.more}
        size="lg"
        searchable
        data={outline.bays.filter(({ id }) => id !== bay).map(({ id }) => ({ value: id, label: nameOf(id) }))}
        value={beside}
        onChange={setBeside}
      />
      <Textarea
        label={words.reason}
        description={words.reasonHelp}
        autosize
        minRows={2}
        maxLength={1000}
        value={reason}
        error={tried && lacksReason ? words.reasonNeeded : undefined}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {state.kind === 'running' ? (
        <Running step={step} done={state.done} of={state.of} onStop={stop} />
      ) : (
        <div className={classes.acts}>
          <Button size="lg" disabled={person === null} onClick={freeze}>
            {person === null ? words.startNobody : words.start(nameOf(person))}
          </Button>
          <Button variant="subtle" onClick={onLeave}>
            {faultsWords.answer.close}
          </Button>
          {person === null && <span className={classes.soft}>{words.nobody}</span>}
        </div>
      )}
      {state.kind === 'stopped' && <Note>{words.stopped}</Note>}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
    </div>
  )
}

interface RunningProps {
  step: FreezeStep
  done: number
  of: number
  onStop: () => void
}

function Running({ step, done, of, onStop }: RunningProps) {
  const percent = Math.floor((100 * done) / Math.max(1, of))
  return (
    <>
      <Progress value={percent} aria-label={words.formTitle} transitionDuration={200} />
      <p role="status">{words.steps[step](percent)}</p>
      <div className={classes.acts}>
        <Button variant="default" onClick={onStop}>
          {allWords.bundle.make.stop}
        </Button>
      </div>
    </>
  )
}
