import { Button, Checkbox, Progress } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { ImportEvent, LoggerCheck, LoggerReading } from '#model/contract/index.ts'
import type { BayId, PersonId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { newId } from '../../app/ids.ts'
import { useLongWork } from '../../app/long-work.ts'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import classes from './import.module.css'

const say = words.imports

interface CommitStepProps {
  bay: BayId
  writer: PersonId
  upload: string
  reading: LoggerReading
  check: LoggerCheck
}

type Done = Extract<ImportEvent, { kind: 'done' }>

/** Writes the good rows as one entry, all or none; can be stopped while it runs. */
export function CommitStep({ bay, writer, upload, reading, check }: CommitStepProps) {
  const queries = useQueryClient()
  const work = useLongWork<Done>()
  const [entry] = useState(() => newId<'entry'>())
  const [leaveOut, setLeaveOut] = useState(false)
  const { state } = work
  const write = () =>
    work.start(async (signal, progress) => {
      const input = { upload, bay, reading, entry, person: writer, acceptBadRows: leaveOut }
      for await (const event of await client.imports.commit(input, { signal })) {
        if (event.kind === 'done') {
          await queries.invalidateQueries()
          return event
        }
        progress(event.done, event.of)
      }
      return null
    })
  if (state.kind === 'done') {
    return (
      <Note tone="good">
        <p role="status">{say.done(state.result.readings, state.result.refused)}</p>
        <p>
          <Link href={paths.entry(state.result.entry)}>{say.doneShow}</Link>
        </p>
      </Note>
    )
  }
  if (state.kind === 'running') {
    return (
      <div className={classes.commit}>
        <Progress value={(100 * state.done) / Math.max(1, state.of)} aria-label={say.writing} />
        <p role="status">{say.progress(state.done, state.of)}</p>
        <Button variant="default" onClick={work.stop}>
          {say.stop}
        </Button>
      </div>
    )
  }
  return (
    <div className={classes.commit}>
      {check.badCount > 0 && (
        <Checkbox
          size="md"
          label={say.leaveOut(check.badCount)}
          checked={leaveOut}
          onChange={(event) => setLeaveOut(event.currentTarget.checked)}
        />
      )}
      {state.kind === 'stopped' && <Note>{say.stopped}</Note>}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
      <Button size="lg" onClick={write} disabled={check.good === 0 || (check.badCount > 0 && !leaveOut)}>
        {say.write(check.good)}
      </Button>
    </div>
  )
}
