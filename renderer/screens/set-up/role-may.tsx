import { holdOrder, holdRules } from '#model/hold/index.ts'
import { may, needsPin } from '#model/people/index.ts'
import { kindNames, kinds } from '#model/record/kinds.ts'
import { holdPoints, type Role, roles } from '#model/record/people.ts'
import { peopleWords } from '../../app/words/people.ts'
import classes from './people.module.css'

const words = peopleWords.part

/** What the table gives a role, read from the same table that the host asks. */
export function RoleMay({ role }: { role: Role }) {
  const written = kindNames.filter((kind) => kind !== 'project-opened' && may([role], kind, 'write first'))
  const titles = (signed: boolean) =>
    written.filter((kind) => needsPin(kind, 'write first') === signed).map((kind) => kinds[kind].title)
  const letsGo = holdOrder
    .filter((point) => holdRules[point].mayRelease.includes(role))
    .map((point) => holdPoints[point])
  const changesOthers = written.some((kind) => may([role], kind, 'correct another’s'))
  return (
    <details className={classes.may}>
      <summary>{words.may(roles[role])}</summary>
      {written.length === 0 ? (
        <p>{words.nothing}</p>
      ) : (
        <>
          <Line name={words.writes} list={titles(false)} />
          <Line name={words.signs} list={titles(true)} />
          <Line name={words.letsGo} list={letsGo} />
          <p>{changesOthers ? words.anothers : words.own}</p>
        </>
      )}
    </details>
  )
}

function Line({ name, list }: { name: string; list: readonly string[] }) {
  if (list.length === 0) return null
  return (
    <p>
      <strong>{name}:</strong> {list.map((one, i) => (i === 0 ? one : one.toLowerCase())).join(', ')}.
    </p>
  )
}
