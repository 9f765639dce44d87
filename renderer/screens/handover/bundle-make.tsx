import { Button, MultiSelect, TextInput } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { KeptBundle } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { client, orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { useLongWork } from '../../app/long-work.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import classes from './bundle.module.css'
import { CopyFingerprint, Fingerprint } from './bundle-fingerprint.tsx'
import { BundleProgress } from './bundle-progress.tsx'

const say = words.bundle.make
type Scope = keyof typeof say.scopes

/** Signs and writes a bundle, and shows the fingerprint that is to be noted elsewhere. */
export function MakeBundle() {
  const { id: project, outline, nameOf } = useJob()
  const person = useWriter()
  const queries = useQueryClient()
  const work = useLongWork<KeptBundle>()
  const [scope, setScope] = useState<Scope>('project')
  const [bays, setBays] = useState<string[]>([])
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const lacksBays = scope === 'bays' && bays.length === 0
  const { state } = work
  const make = () => {
    setTried(true)
    if (lacksBays || person === null) return
    void work.start(async (signal, progress) => {
      const input = {
        project,
        person,
        scope: scope === 'bays' ? { kind: scope, bays: bays as BayId[] } : { kind: scope },
        ...(reason.trim() === '' ? {} : { reason: reason.trim() }),
      }
      for await (const event of await client.bundles.make(input, { signal })) {
        if (event.kind === 'done') {
          await queries.invalidateQueries({ queryKey: orpc.bundles.list.key() })
          return event.bundle
        }
        progress(event.done, event.of)
      }
      return null
    })
  }
  return (
    <Section title={say.title}>
      <div className={classes.form}>
        <Segmented
          label={say.scope}
          options={say.scopes}
          value={scope}
          onChange={(value) => setScope(value as Scope)}
          help={say.scopeHelp[scope]}
        />
        {scope === 'bays' && (
          <MultiSelect
            label={say.bays}
            data={outline.bays.map(({ id }) => ({ value: id, label: nameOf(id) }))}
            value={bays}
            onChange={setBays}
            error={tried && lacksBays ? say.needBays : undefined}
            searchable
          />
        )}
        <TextInput
          label={say.reason}
          description={say.reasonHelp}
          value={reason}
          maxLength={1000}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        {tried && person === null && <Note tone="act">{words.rail.pickWriter}</Note>}
        {state.kind === 'running' ? (
          <BundleProgress {...state} label={say.title} text={say.running} onStop={work.stop} />
        ) : (
          <Button size="lg" onClick={make}>
            {say.start}
          </Button>
        )}
        {state.kind === 'stopped' && <Note>{say.stopped}</Note>}
        {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
        {state.kind === 'done' && <Made bundle={state.result} />}
      </div>
    </Section>
  )
}

function Made({ bundle }: { bundle: KeptBundle }) {
  return (
    <Note tone="good">
      <div className={classes.told}>
        <p role="status">{say.done}</p>
        <p className={classes.path}>{bundle.file}</p>
        <p>{say.note}</p>
        <Fingerprint hex={bundle.fingerprint} />
        <CopyFingerprint hex={bundle.fingerprint} />
      </div>
    </Note>
  )
}
