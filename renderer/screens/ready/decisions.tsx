import { Link } from 'wouter'
import { type BodyOf, kinds } from '#model/record/kinds.ts'
import { type BayStory, entriesOf } from '#model/record/story.ts'
import { coverings } from '#model/record/words.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { readyWords } from '../../app/words/ready.ts'
import { calendarDayText, dayText, momentText } from '../../parts/site-time.ts'
import { checkText } from './decision.ts'
import classes from './ready.module.css'

const words = readyWords.decisions

/** Who decided what about covering this bay, newest first. */
export function Decisions({ story }: { story: BayStory }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const decisions = entriesOf(story, 'bay-decided').toReversed()
  const { decision, verdictShown } = kinds['bay-decided'].fields
  if (decisions.length === 0) return null
  return (
    <section className={classes.part}>
      <h2 className={classes.title}>{words.title}</h2>
      <ul className={classes.decisions}>
        {decisions.map(({ id, body, person, happenedAt }) => (
          <li key={id}>
            <p>
              <Link href={paths.entry(id)}>
                <strong>{decision.options[body.decision]}</strong>
              </Link>
              , {coverings[body.covering].toLowerCase()}, {verdictShown.options[body.verdictShown]}
              <span className={classes.soft}>
                {' '}
                · {words.by(nameOf(person), momentText(happenedAt, zone, now))}
              </span>
            </p>
            {body.ownReading !== undefined && <p>{words.own(body.ownReading)}</p>}
            {measuredOnly(body).map((text) => (
              <p key={text}>{words.measured(text)}</p>
            ))}
            {body.holdsUntil !== undefined && (
              <p className={classes.soft}>{words.holds(dayText(Date.parse(body.holdsUntil), zone, now))}</p>
            )}
            {(body.reasons ?? []).map(({ reason }) => (
              <p key={reason}>{reason}</p>
            ))}
            {body.nextLookOn !== undefined && <p>{words.next(calendarDayText(body.nextLookOn))}</p>}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** The check readings that neither the words of the person nor a reason says already. */
function measuredOnly({ ownChecks = [], ownReading = '', reasons = [] }: BodyOf<'bay-decided'>): string[] {
  const told = [ownReading, ...reasons.map(({ reason }) => reason)]
  return ownChecks.map(checkText).filter((text) => !told.some((words) => words.includes(text)))
}
