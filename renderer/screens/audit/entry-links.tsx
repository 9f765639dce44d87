import { Link } from 'wouter'
import type { EntryLabel } from '#model/contract/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { momentText } from '../../parts/site-time.ts'
import classes from './audit.module.css'

const mostShown = 6

/** Entries by title and moment; a bay has twenty batches, and a few say enough. */
export function EntryLinks({ ids, known }: { ids: readonly string[]; known: readonly EntryLabel[] }) {
  const { zone } = useJob()
  const now = useNow()
  const found = known.filter(({ id }) => ids.includes(id))
  if (found.length === 0) return words.audit.detail.noEvidence
  return (
    <ul className={classes.links}>
      {found.slice(0, mostShown).map(({ id, kind, happenedAt }) => (
        <li key={id}>
          <Link href={paths.entry(id)}>
            {kinds[kind].title}, {momentText(happenedAt, zone, now)}
          </Link>
        </li>
      ))}
      {found.length > mostShown && <li>{words.audit.detail.more(found.length - mostShown)}</li>}
    </ul>
  )
}
