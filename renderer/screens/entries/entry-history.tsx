import { type EntryVersion, type StoryEntry, sources } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { BodyList } from '../../parts/body-list.tsx'
import { numberText } from '../../parts/number-text.ts'
import { momentText } from '../../parts/site-time.ts'
import classes from './entries.module.css'

const say = words.entries

/** All versions of a fact, newest first: what changed is struck through, with who, when and why. */
export function EntryHistory({ fact }: { fact: StoryEntry }) {
  const versions = fact.versions.map((version, index) => ({
    version,
    before: fact.versions.slice(0, index).findLast(({ kind }) => kind !== 'entry-withdrawn'),
    number: index + 1,
  }))
  return (
    <ol className={classes.history} reversed>
      {versions.toReversed().map(({ version, before, number }) => (
        <Version key={version.id} fact={fact} version={version} before={before} number={number} />
      ))}
    </ol>
  )
}

interface VersionProps {
  fact: StoryEntry
  version: EntryVersion
  before: EntryVersion | undefined
  number: number
}

function Version({ fact, version, before, number }: VersionProps) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const withdrawal = version.kind === 'entry-withdrawn'
  const name = withdrawal ? say.withdrawal : before === undefined ? say.first : say.correction(number)
  const moved = before !== undefined && !withdrawal && before.happenedAt !== version.happenedAt
  return (
    <li className={classes.version}>
      <p>
        <strong>{name}</strong>
      </p>
      <p className={classes.soft}>
        {say.writtenBy(nameOf(version.person), momentText(version.recordedAt, zone, now))} ·{' '}
        {sources[version.source]}
      </p>
      {version.reason !== null && <p className={classes.reason}>{say.because(version.reason)}</p>}
      {moved && (
        <p>
          {say.happened} <del>{momentText(before.happenedAt, zone, now)}</del>{' '}
          <ins className={classes.new}>{momentText(version.happenedAt, zone, now)}</ins>
        </p>
      )}
      {!withdrawal && <BodyList fields={kinds[fact.kind].fields} body={version.body} before={before?.body} />}
      {version.answers.map(({ field, value, answer }) => (
        <p key={field} className={classes.soft}>
          {say.answer(field, numberText(value, 4), answer)}
        </p>
      ))}
    </li>
  )
}
