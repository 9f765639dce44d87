import { Redirect, useLocation, useParams } from 'wouter'
import { isKindName, type KindName, kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { NotHere } from '../../app/not-here.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Note } from '../../parts/banner.tsx'
import { Cautions } from '../../parts/caution.tsx'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import type { EntryForm as Form } from '../../parts/entry-form/use-entry-form.ts'
import { Page } from '../../parts/page.tsx'
import { momentText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import { livePanels } from './live/index.ts'
import classes from './record.module.css'
import { useStart } from './use-start.ts'

/** One fact about one thing: the form of its kind, what the numbers mean, what to take care of. */
export default function RecordScreen() {
  const { kind = '', subject = '' } = useParams<{ kind: string; subject: string }>()
  if (!isKindName(kind)) return <NotHere />
  // A fault is drawn on the plan and chosen by its picture.
  if (kind === 'defect-found') return <Redirect to={paths.reportFaultOn(subject)} replace />
  return <FactForm key={`${kind} ${subject}`} kind={kind} subject={subject} />
}

function FactForm({ kind, subject }: { kind: KindName; subject: string }) {
  const [, go] = useLocation()
  const { nameOf, zone } = useJob()
  const now = useNow()
  const { start, from, isPending } = useStart(kind, subject)
  if (isPending) return <Waiting />
  return (
    <Page title={kinds[kind].title} lead={nameOf(subject)}>
      <EntryForm
        kind={kind}
        subject={subject}
        draftKey={`${kind} ${subject}`}
        start={start}
        note={
          from === null ? undefined : (
            <Note>{words.form.carried(nameOf(from.subject), momentText(from.happenedAt, zone, now))}</Note>
          )
        }
        live={(form) => <Beside kind={kind} subject={subject} form={form} />}
        onSaved={() => (history.length > 1 ? history.back() : go('/'))}
      />
    </Page>
  )
}

function Beside({ kind, subject, form }: { kind: KindName; subject: string; form: Form }) {
  const Panel = livePanels[kind]
  return (
    <div className={classes.side}>
      {Panel !== undefined && <Panel subject={subject} form={form} />}
      <Cautions kind={kind} values={form.draft.values} subject={subject} />
    </div>
  )
}
