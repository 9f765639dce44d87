import { Button } from '@mantine/core'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, useState } from 'react'
import type { PersonId, ProjectId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { chooseProject } from '../../app/job.tsx'
import { entryOf } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { holdWords } from '../../app/words/hold-points.ts'
import { words } from '../../app/words.ts'
import { chooseWriter } from '../../app/writer.ts'
import { Banner } from '../../parts/banner.tsx'
import { EntryFields } from '../../parts/entry-form/entry-fields.tsx'
import { ProblemList } from '../../parts/entry-form/problem-list.tsx'
import { type EntryForm, type SubmittedEntry, useEntryForm } from '../../parts/entry-form/use-entry-form.ts'
import { Page, Section } from '../../parts/page.tsx'
import { siteIso } from '../../parts/site-time.ts'
import { ReceivedBundle } from '../handover/bundle-received.tsx'
import { asBound, firstHoldPoints, HoldPointTicks } from './hold-point-ticks.tsx'
import classes from './set-up.module.css'

/** An empty record: the first project and the first person, written together or not at all. */
export default function FirstRunScreen() {
  const queries = useQueryClient()
  const now = useNow()
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone
  const project = useEntryForm({
    kind: 'project-opened',
    draftKey: 'first project',
    zone,
    start: { timeZone: zone, currency: 'EUR' },
  })
  const person = useEntryForm({ kind: 'person-added', draftKey: 'first person', zone })
  const [holds, setHolds] = useState(firstHoldPoints)
  const open = useMutation({
    mutationFn: (submitted: { project: SubmittedEntry; person: SubmittedEntry }) => {
      const projectId = submitted.project.id as unknown as ProjectId
      const personId = submitted.person.id as unknown as PersonId
      const siteZone = String(submitted.project.body.timeZone)
      const at = { happenedAt: siteIso(now, siteZone) }
      const body = { ...submitted.project.body, holdPoints: asBound(holds) }
      return client.record.append({
        entries: [
          entryOf(
            { ...submitted.project, ...at, body, kind: 'project-opened' },
            projectId,
            siteZone,
            personId,
          ),
          entryOf({ ...submitted.person, ...at, kind: 'person-added' }, projectId, siteZone, personId),
        ],
      })
    },
    onSuccess: async ({ entries }) => {
      project.clear()
      person.clear()
      for (const entry of entries) {
        if (entry.kind === 'project-opened') chooseProject(entry.id)
        if (entry.kind === 'person-added') chooseWriter(entry.id as unknown as PersonId)
      }
      await queries.invalidateQueries()
    },
  })
  const save = (event: FormEvent) => {
    event.preventDefault()
    const [projectFact, personFact] = [project.submit(), person.submit()]
    if (projectFact !== null && personFact !== null) open.mutate({ project: projectFact, person: personFact })
  }
  return (
    <main className={classes.firstRun}>
      <p className={classes.app}>{words.app}</p>
      <Page title={words.setUp.firstRun.title} lead={words.setUp.firstRun.lead} narrow>
        <form noValidate onSubmit={save}>
          <Part title={words.setUp.firstRun.project} form={project} />
          <Section title={holdWords.choice.title}>
            <p className={classes.cardLine}>{holdWords.choice.lead}</p>
            <HoldPointTicks picked={holds} onPick={setHolds} />
          </Section>
          <Part title={words.setUp.firstRun.person} form={person} />
          {open.error !== null && <Banner trouble={troubleOf(open.error)} />}
          <p className={classes.cautionLine}>{words.setUp.firstRun.caution}</p>
          <Button type="submit" size="lg" loading={open.isPending} mt="lg">
            {words.setUp.firstRun.open}
          </Button>
        </form>
        <ReceivedBundle zone={zone} person={undefined} />
      </Page>
    </main>
  )
}

function Part({ title, form }: { title: string; form: EntryForm }) {
  return (
    <Section title={title}>
      <EntryFields form={form} />
      {form.tried && <ProblemList formId={form.kind} problems={form.problems} />}
    </Section>
  )
}
