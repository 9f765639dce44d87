import { useParams } from 'wouter'
import type { StoryEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { useFact } from '../../app/use-fact.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { BodyList } from '../../parts/body-list.tsx'
import { Page, Section } from '../../parts/page.tsx'
import { EntryPhotos, EntryPicture } from '../../parts/photos/entry-photos.tsx'
import { momentText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import { BringBack } from './bring-back.tsx'
import classes from './entries.module.css'
import { EntryHistory } from './entry-history.tsx'
import { EntryMarks } from './entry-marks.tsx'
import { WithdrawEntry } from './withdraw-entry.tsx'

const say = words.entries

/** One fact: what holds now, and every version of it with who, when and why. */
export default function EntryScreen() {
  const { entry = '' } = useParams<{ entry: string }>()
  const { fact, error, isPending } = useFact(entry)
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} />
  if (fact === null) return <Banner trouble={{ banner: words.trouble.notFound('entry'), fields: {} }} />
  return <Fact fact={fact} />
}

function Fact({ fact }: { fact: StoryEntry }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  return (
    <Page
      title={kinds[fact.kind].title}
      lead={`${nameOf(fact.subject)}, ${momentText(fact.happenedAt, zone, now)}`}
      actions={<EntryMarks entry={fact} />}
      narrow
    >
      {fact.conflict && <Note tone="act">{say.conflict}</Note>}
      {fact.withdrawn ? <Note>{say.withdrawnNote}</Note> : null}
      <EntryPicture fact={fact} />
      <div className={fact.withdrawn ? classes.struck : undefined}>
        <BodyList fields={kinds[fact.kind].fields} body={fact.body} />
      </div>
      {fact.withdrawn ? (
        <div className={classes.acts}>
          <BringBack fact={fact} />
        </div>
      ) : (
        <div className={classes.acts}>
          <ActionLink href={paths.correct(fact.id)}>{say.correct}</ActionLink>
          <WithdrawEntry fact={fact} />
        </div>
      )}
      <EntryPhotos fact={fact} />
      <Section title={say.history}>
        <EntryHistory fact={fact} />
      </Section>
    </Page>
  )
}
