import { Button, Progress } from '@mantine/core'
import type { VerifyReport } from '#model/contract/index.ts'
import { client } from '../../app/client.ts'
import { useLongWork } from '../../app/long-work.ts'
import { troubleOf } from '../../app/trouble.ts'
import { asSentence } from '../../app/words/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import classes from './set-up.module.css'

const say = words.setUp.record

/** Checks the whole record, with progress; can be stopped; says the result in words. */
export function VerifyRecord() {
  const work = useLongWork<VerifyReport>()
  const start = () =>
    work.start(async (signal, progress) => {
      for await (const event of await client.record.verify({}, { signal })) {
        if (event.kind === 'done') return event.report
        progress(event.done, event.of)
      }
      return null
    })
  const { state } = work
  return (
    <div className={classes.form}>
      <p>{say.verifyLead}</p>
      {state.kind === 'running' ? (
        <>
          <Progress
            value={(100 * state.done) / Math.max(1, state.of)}
            aria-label={say.verifyTitle}
            transitionDuration={200}
          />
          <p role="status">{say.verifying(state.done, state.of)}</p>
          <Button variant="default" onClick={work.stop}>
            {say.stop}
          </Button>
        </>
      ) : (
        <Button onClick={start}>{say.verify}</Button>
      )}
      {state.kind === 'stopped' && <Note>{say.cancelled}</Note>}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
      {state.kind === 'done' && <Report report={state.result} />}
    </div>
  )
}

function Report({ report }: { report: VerifyReport }) {
  if (!report.ok) {
    const banner = say.broken(asSentence(report.firstDifference ?? words.notKnown))
    return <Banner trouble={{ banner, fields: {} }} />
  }
  return (
    <Note tone="good">
      <p role="status">{say.whole(report.entries, report.series)}</p>
      {report.photos.kept > 0 && <p>{say.photos(report.photos.kept)}</p>}
      {report.photos.withoutEntry > 0 && <p>{say.strayPhotos(report.photos.withoutEntry)}</p>}
      <ul>
        {report.chains.map(({ device, entries, head }) => (
          <li key={device} className={classes.mono}>
            {say.chain(entries, head.slice(0, 16))}
          </li>
        ))}
      </ul>
    </Note>
  )
}
