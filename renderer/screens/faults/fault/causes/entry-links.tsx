import { Link } from 'wouter'
import { paths } from '../../../../app/paths.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import classes from '../fault.module.css'

const words = faultsWords.causes
const most = 6

/** The entries that show something, as links. */
export function EntryLinks({ entries }: { entries: readonly string[] }) {
  if (entries.length === 0) return null
  return (
    <span className={classes.links}>
      {words.links}{' '}
      {entries.slice(0, most).map((entry, i) => (
        <Link key={entry} href={paths.entry(entry)}>
          {words.link(i + 1)}
        </Link>
      ))}
      {entries.length > most && <span>{words.more(entries.length - most)}</span>}
    </span>
  )
}
