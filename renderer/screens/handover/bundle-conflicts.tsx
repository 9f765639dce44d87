import { Button, Radio, Textarea } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { Link } from 'wouter'
import type { ConflictToSettle } from '#model/contract/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { orpc } from '../../app/client.ts'
import { nowMs } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { BodyList } from '../../parts/body-list.tsx'
import { Section } from '../../parts/page.tsx'
import { momentText, siteIso } from '../../parts/site-time.ts'
import classes from './bundle.module.css'

const say = words.bundle.conflicts

/** Facts with two corrections side by side; a person says which holds. */
export function Conflicts() {
  const { id: project } = useJob()
  const { data, error } = useQuery(orpc.bundles.conflicts.queryOptions({ input: { project } }))
  return (
    <Section title={say.title}>
      {error !== null && <Banner trouble={troubleOf(error)} />}
      {data?.conflicts.length === 0 && <p>{say.none}</p>}
      {data !== undefined && data.conflicts.length > 0 && <p>{say.lead}</p>}
      {data?.conflicts.map((conflict) => (
        <Conflict key={conflict.ends.join()} conflict={conflict} />
      ))}
    </Section>
  )
}

function Conflict({ conflict: { fact, ends } }: { conflict: ConflictToSettle }) {
  const { zone, nameOf } = useJob()
  const recorder = useRecorder()
  const group = useId()
  const [holds, setHolds] = useState<string | null>(null)
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const versions = fact.versions.filter(({ id }) => ends.includes(id))
  const before = fact.versions.find(({ id }) => !ends.includes(id))
  const settle = () => {
    setTried(true)
    if (holds === null || reason.trim() === '') return
    const happenedAt = siteIso(nowMs(), zone)
    const withdrawn = ends.filter((id) => id !== holds)
    recorder.mutate(
      withdrawn.map((corrects) => ({
        kind: 'entry-withdrawn' as const,
        subject: fact.subject,
        happenedAt,
        body: {},
        corrects,
        reason: reason.trim(),
      })),
    )
  }
  return (
    <div className={classes.conflict}>
      <h3 className={classes.conflictTitle}>
        {kinds[fact.kind].title}, {nameOf(fact.subject)}, {momentText(fact.happenedAt, zone)}
      </h3>
      <Link href={paths.entry(fact.id)}>{say.history}</Link>
      <div className={classes.ends}>
        {versions.map((version) => (
          <div key={version.id} className={classes.end} data-picked={holds === version.id || undefined}>
            <Radio
              size="md"
              name={group}
              label={say.holds}
              checked={holds === version.id}
              onChange={() => setHolds(version.id)}
            />
            <p className={classes.soft}>
              {say.by(nameOf(version.person), momentText(version.recordedAt, zone))}
            </p>
            {version.reason !== null && <p>{say.because(version.reason)}</p>}
            <BodyList fields={kinds[fact.kind].fields} body={version.body} before={before?.body} />
          </div>
        ))}
      </div>
      <div className={classes.form}>
        {tried && holds === null && <p role="alert">{say.pick}</p>}
        <Textarea
          label={say.reason}
          error={tried && reason.trim() === '' ? say.needReason : undefined}
          autosize
          minRows={2}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <Button onClick={settle} loading={recorder.isPending}>
          {say.settle}
        </Button>
      </div>
    </div>
  )
}
