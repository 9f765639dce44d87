import { Button, Checkbox, Progress, Radio, Select } from '@mantine/core'
import { useState } from 'react'
import { type MadeFile, type ReportKind, type ReportStep, reportKinds } from '#model/contract/reports.ts'
import type { BayId } from '#model/record/ids.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { useLongWork } from '../../app/long-work.ts'
import { troubleOf } from '../../app/trouble.ts'
import { handoverWords } from '../../app/words/handover.ts'
import { handOut } from '../../charts/save.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import classes from './handover.module.css'
import { sizeText } from './size-text.ts'

const words = handoverWords.file
const printed: readonly ReportKind[] = ['project', 'bay', 'release']
const inOrder = [...printed, ...reportKinds.filter((kind) => !printed.includes(kind))]

/** Makes a file of the chosen bays, with progress, and hands it out; can be stopped. */
export function MakeFile({ bays }: { bays: readonly BayId[] }) {
  const { id: project } = useJob()
  const [kind, setKind] = useState<ReportKind>('project')
  const [covering, setCovering] = useState<Covering | null>(null)
  const [estimates, setEstimates] = useState(true)
  const [step, setStep] = useState<ReportStep>('file')
  const work = useLongWork<MadeFile>()
  const { state } = work
  const hasCharts = kind === 'project' || kind === 'bay'

  const start = () => {
    setStep(estimates && hasCharts ? 'estimates' : 'file')
    return work.start(async (signal, progress) => {
      const wanted = {
        project,
        kind,
        bays: [...bays],
        estimates: estimates && hasCharts,
        ...(covering === null ? {} : { covering }),
      }
      for await (const event of await client.reports.make(wanted, { signal })) {
        if (event.kind === 'done') {
          await save(event.file)
          return event.file
        }
        setStep(event.step)
        progress(event.done, event.of)
      }
      return null
    })
  }
  return (
    <div className={classes.form}>
      <Radio.Group label={words.kind} value={kind} onChange={(next) => setKind(next as ReportKind)}>
        <div className={classes.kinds}>
          {inOrder.map((one) => (
            <Radio
              key={one}
              size="md"
              value={one}
              label={words.kinds[one]}
              description={words.kindHelp[one]}
            />
          ))}
        </div>
      </Radio.Group>
      <Select
        label={words.covering}
        data={[
          { value: '', label: words.asPlanned },
          ...Object.entries(coverings).map(([value, label]) => ({ value, label })),
        ]}
        value={covering ?? ''}
        onChange={(next) => setCovering(next === null || next === '' ? null : (next as Covering))}
      />
      {hasCharts && (
        <Checkbox
          size="md"
          label={words.estimates}
          description={words.estimatesHelp}
          checked={estimates}
          onChange={(event) => setEstimates(event.currentTarget.checked)}
        />
      )}
      {state.kind === 'running' ? (
        <>
          <Progress
            value={(100 * state.done) / Math.max(1, state.of)}
            aria-label={words.working[step]}
            transitionDuration={200}
          />
          <p role="status">
            {words.working[step]}, {words.percent(Math.round((100 * state.done) / Math.max(1, state.of)))}
          </p>
          <div>
            <Button variant="default" size="lg" onClick={work.stop}>
              {words.stop}
            </Button>
          </div>
        </>
      ) : (
        <div>
          <Button size="lg" onClick={start} disabled={bays.length === 0}>
            {words.make}
          </Button>
        </div>
      )}
      {bays.length === 0 && <p className={classes.soft}>{words.choose}</p>}
      {state.kind === 'stopped' && <Note>{words.stopped}</Note>}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} onRetry={start} />}
      {state.kind === 'done' && <Made file={state.result} />}
    </div>
  )
}

/** What was made; it can be saved again while the session remembers it. */
function Made({ file }: { file: MadeFile }) {
  const [trouble, setTrouble] = useState<unknown>(null)
  const again = () => save(file).then(() => setTrouble(null), setTrouble)
  return (
    <Note tone="good">
      <p role="status">{words.done(file.name, sizeText(file.bytes))}</p>
      <p className={classes.soft}>{words.hash}</p>
      <p className={classes.hash}>{file.sha256}</p>
      <Button variant="default" onClick={again}>
        {words.again}
      </Button>
      {trouble !== null && <Banner trouble={troubleOf(trouble)} />}
    </Note>
  )
}

async function save({ made, name }: MadeFile): Promise<void> {
  const { file } = await client.reports.fetch({ made })
  handOut(file, name)
}
