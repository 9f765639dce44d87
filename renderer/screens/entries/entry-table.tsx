import { Link } from 'wouter'
import type { StoryEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { clockText, dayText, siteDay } from '../../parts/site-time.ts'
import classes from './entries.module.css'
import { EntryMarks } from './entry-marks.tsx'
import { useSummary } from './summary.ts'

/** Facts by day, each one line: when, what, about whom, by whom, and its marks. */
export function EntryTable({ entries }: { entries: readonly StoryEntry[] }) {
  const { zone } = useJob()
  const now = useNow()
  const days = Object.entries(Object.groupBy(entries, (entry) => siteDay(entry.happenedAt, zone)))
  return days.map(([day, ofDay]) => (
    <section key={day} className={classes.day}>
      <h2 className={classes.dayName}>{dayText(ofDay![0]!.happenedAt, zone, now)}</h2>
      <ul className={classes.list}>
        {ofDay!.map((entry) => (
          <EntryLine key={entry.id} entry={entry} />
        ))}
      </ul>
    </section>
  ))
}

function EntryLine({ entry }: { entry: StoryEntry }) {
  const { zone, nameOf } = useJob()
  const summary = useSummary()
  return (
    <li className={classes.entry} data-withdrawn={entry.withdrawn || undefined}>
      <span className={classes.clock}>{clockText(entry.happenedAt, zone)}</span>
      <span>
        <Link href={paths.entry(entry.id)} className={classes.title}>
          {kinds[entry.kind].title}
        </Link>
        <span className={classes.about}> {nameOf(entry.subject)}</span>
        <span className={classes.summary}>{summary(entry)}</span>
      </span>
      <span className={classes.by}>{words.entries.by(nameOf(entry.person))}</span>
      <span className={classes.marks}>
        <EntryMarks entry={entry} />
      </span>
    </li>
  )
}
