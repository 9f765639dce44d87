import { Button, Checkbox } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { BundleCheck, BundleJoining } from '#model/contract/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { useLongWork } from '../../app/long-work.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import classes from './bundle.module.css'
import { BundleProgress } from './bundle-progress.tsx'

const say = words.bundle.takeIn

interface TakeInProps {
  check: BundleCheck
  /** Who takes it in: null until somebody is picked, undefined in a record that knows nobody yet. */
  person: PersonId | null | undefined
}

/** Takes a good bundle in. A key that this record does not know asks for a look at the fingerprint first. */
export function TakeIn({ check, person }: TakeInProps) {
  const queries = useQueryClient()
  const work = useLongWork<BundleJoining>()
  const [compared, setCompared] = useState(false)
  const { upload, fingerprint, joining, notJoined, key, about } = check
  const { state } = work
  if (joining === null || fingerprint === null) return <Note tone="act">{say.cannot(notJoined ?? '')}</Note>
  if (state.kind === 'done') return <Done joined={state.result} />
  if (joining.added === 0) return <Note>{say.nothing}</Note>
  const start = () =>
    work.start(async (signal, progress) => {
      const input = { upload, fingerprint, ...(person == null ? {} : { person }) }
      for await (const event of await client.bundles.takeIn(input, { signal })) {
        if (event.kind === 'done') {
          await queries.invalidateQueries()
          return event.joined
        }
        progress(event.done, event.of)
      }
      return null
    })
  const mayStart = person !== null && (key?.trust === 'known' || compared)
  return (
    <div className={classes.form}>
      <p>
        <strong>{say.title}</strong>
      </p>
      <p>
        {say.would(joining.added, joining.known)}{' '}
        {joining.conflicts > 0 && say.withConflicts(joining.conflicts)}
      </p>
      {joining.missing > 0 && about?.scope === 'bays' && (
        <p>{words.bundle.part.taking(words.bundle.part.ofAll(about.bays.length, about.baysOfProject))}</p>
      )}
      {key?.trust !== 'known' && (
        <Checkbox
          size="md"
          label={say.confirm}
          checked={compared}
          onChange={(event) => setCompared(event.currentTarget.checked)}
        />
      )}
      {person === null && <Note tone="act">{words.rail.pickWriter}</Note>}
      {state.kind === 'stopped' && <Note>{words.bundle.received.stopped}</Note>}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
      {state.kind === 'running' ? (
        <BundleProgress {...state} label={say.title} text={say.running} onStop={work.stop} />
      ) : (
        <Button size="lg" onClick={start} disabled={!mayStart}>
          {say.start}
        </Button>
      )}
    </div>
  )
}

function Done({ joined }: { joined: BundleJoining }) {
  return (
    <Note tone={joined.conflicts > 0 ? 'act' : 'good'}>
      <p role="status">{say.done(joined.added)}</p>
      {joined.conflicts > 0 && <p>{say.doneConflicts(joined.conflicts)}</p>}
    </Note>
  )
}
