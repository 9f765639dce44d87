import { Button, FileButton, Progress } from '@mantine/core'
import { type DragEvent, useState } from 'react'
import { type BundleCheck, bundleFileEnding } from '#model/contract/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { client, uploadFile } from '../../app/client.ts'
import { useLongWork } from '../../app/long-work.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { sizeText } from '../../parts/backup-list.tsx'
import { Banner, Note } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './bundle.module.css'
import { BundleAboutList } from './bundle-about.tsx'
import { BundleProgress } from './bundle-progress.tsx'
import { TakeIn } from './bundle-take-in.tsx'

const say = words.bundle.received

interface ReceivedBundleProps {
  zone: string
  /** Who would take it in; undefined in a record that knows nobody yet. */
  person: PersonId | null | undefined
}

/** Checks a bundle from elsewhere, tells the result in words, and takes it in when a person wants that. */
export function ReceivedBundle({ zone, person }: ReceivedBundleProps) {
  const work = useLongWork<BundleCheck>()
  const [file, setFile] = useState<File | null>(null)
  const [sent, setSent] = useState<number | null>(null)
  const { state } = work
  const check = (chosen: File) => {
    setFile(chosen)
    setSent(0)
    void work.start(async (signal, progress) => {
      // A bundle is told by its ending; a renamed one is still looked at.
      const named = chosen.name.endsWith(bundleFileEnding)
        ? chosen
        : new File([chosen], `${chosen.name}${bundleFileEnding}`)
      const upload = await uploadFile(named, setSent).finally(() => setSent(null))
      signal.throwIfAborted()
      for await (const event of await client.bundles.check({ upload }, { signal })) {
        if (event.kind === 'done') return event.check
        progress(event.done, event.of)
      }
      return null
    })
  }
  const drop = (event: DragEvent) => {
    event.preventDefault()
    const dropped = event.dataTransfer.files[0]
    if (dropped !== undefined && state.kind !== 'running') check(dropped)
  }
  return (
    <Section title={say.title}>
      <div className={classes.form}>
        <p>{say.lead}</p>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is an extra way; the button beside it does the same */}
        <div className={classes.drop} onDragOver={(event) => event.preventDefault()} onDrop={drop}>
          <FileButton accept={bundleFileEnding} onChange={(chosen) => chosen !== null && check(chosen)}>
            {(props) => (
              <Button {...props} size="lg" disabled={state.kind === 'running'}>
                {say.choose}
              </Button>
            )}
          </FileButton>
          <p>{file === null ? say.drop : say.chosen(file.name, sizeText(file.size))}</p>
        </div>
        {state.kind === 'running' && sent !== null && (
          <Progress value={100 * sent} aria-label={say.sending} />
        )}
        {state.kind === 'running' && sent === null && (
          <BundleProgress {...state} label={say.title} text={say.checking} onStop={work.stop} />
        )}
        {state.kind === 'stopped' && <Note>{say.stopped}</Note>}
        {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
        {state.kind === 'done' && (
          <Result key={state.result.upload} check={state.result} zone={zone} person={person} />
        )}
      </div>
    </Section>
  )
}

function Result({ check, zone, person }: ReceivedBundleProps & { check: BundleCheck }) {
  const { verdict, firstDifference } = check
  if (verdict === 'broken') {
    // A sentence already, and one that may begin with the name of a file.
    const banner = say.broken(firstDifference ?? words.notKnown)
    return (
      <Banner trouble={{ banner, fields: {} }}>
        <p>{say.brokenNext}</p>
      </Banner>
    )
  }
  const isGood = verdict === 'good'
  return (
    <>
      <Note tone={isGood ? 'good' : 'act'}>
        <div className={classes.told}>
          <p role="status">{isGood ? say.good : say.unsigned}</p>
          <p>{say.compare}</p>
          <BundleAboutList check={check} zone={zone} />
        </div>
      </Note>
      {isGood && <TakeIn check={check} person={person} />}
    </>
  )
}
