import { Link, useLocation, useParams } from 'wouter'
import type { StoryEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { useFact } from '../../app/use-fact.ts'
import { useActOn } from '../../app/use-may-not.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { draftOfBody } from '../../parts/entry-form/draft.ts'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import { Page } from '../../parts/page.tsx'
import { momentText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'

const say = words.entries

/** The form of the fact with what holds now in it. Saving adds a version; the old one stays readable. */
export default function CorrectScreen() {
  const { entry = '' } = useParams<{ entry: string }>()
  const { fact, error, isPending } = useFact(entry)
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} />
  if (fact === null) return <Banner trouble={{ banner: words.trouble.notFound('entry'), fields: {} }} />
  return <CorrectFact key={fact.versions.at(-1)?.id} fact={fact} />
}

function CorrectFact({ fact }: { fact: StoryEntry }) {
  const [, go] = useLocation()
  const { zone, nameOf } = useJob()
  const version = fact.versions.at(-1)!
  const act = useActOn(version, 'correct')
  if (fact.withdrawn) return <Banner trouble={{ banner: say.withdrawnNote, fields: {} }} />
  return (
    <Page
      title={say.correctTitle(kinds[fact.kind].title)}
      lead={say.correctLead(nameOf(fact.subject), momentText(fact.happenedAt, zone))}
      actions={<Link href={paths.entry(fact.id)}>{say.history}</Link>}
    >
      <EntryForm
        kind={fact.kind}
        subject={fact.subject}
        draftKey={`correct ${version.id}`}
        start={draftOfBody(kinds[fact.kind].fields, fact.body, zone)}
        correcting={{ version: version.id, act, happenedAt: fact.happenedAt, answers: version.answers }}
        note={<Note>{say.correctNote}</Note>}
        onSaved={() => go(paths.entry(fact.id))}
      />
    </Page>
  )
}
