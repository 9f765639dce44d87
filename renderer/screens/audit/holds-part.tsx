import { Link } from 'wouter'
import type { AuditOpen } from '#model/contract/index.ts'
import { holdPoints } from '#model/record/people.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { holdWords } from '../../app/words/hold-points.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { Section } from '../../parts/page.tsx'
import { momentText, nearText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './audit.module.css'
import { Nonconformances } from './nonconformances.tsx'
import { useOpen } from './use-open.ts'

const say = words.audit.holds
type Hold = AuditOpen['holds'][number]

const marks: Record<Hold['state'], { shape: Shape; tone: Tone }> = {
  released: { shape: 'discTick', tone: 'good' },
  waived: { shape: 'ringDot', tone: 'watch' },
  held: { shape: 'octagonBar', tone: 'stop' },
  open: { shape: 'trianglePoint', tone: 'act' },
  'not yet due': { shape: 'emptyRing', tone: 'plain' },
  'does not apply': { shape: 'dashedSquare', tone: 'plain' },
}

const urgency: readonly Hold['state'][] = [
  'held',
  'open',
  'waived',
  'released',
  'not yet due',
  'does not apply',
]

/** What holds work back, and what was raised, to its closure. */
export function HoldsPart() {
  const { data, error, isPending, refetch } = useOpen()
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  return (
    <>
      <Nonconformances list={data.nonconformances} />
      <Section title={say.title}>
        {data.holds.length === 0 && <p>{say.none}</p>}
        <ul className={classes.lines}>
          {byUrgency(data.holds).map((hold) => (
            <HoldLine key={`${hold.bay} ${hold.point}`} hold={hold} />
          ))}
        </ul>
      </Section>
    </>
  )
}

/** What holds work back comes first; within it the order of the bays. */
function byUrgency(holds: readonly Hold[]): readonly Hold[] {
  return holds.toSorted((a, b) => urgency.indexOf(a.state) - urgency.indexOf(b.state))
}

function HoldLine({ hold }: { hold: Hold }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { bay, point, state, because, by, at, saw, dueAt, passedBy, findings } = hold
  const [passed] = passedBy
  return (
    <li className={classes.line}>
      <div>
        <p>
          <Link href={paths.auditBay(bay)} className={classes.strong}>
            {nameOf(bay)}
          </Link>
        </p>
        <p className={classes.soft}>
          {by === null || at === null
            ? dueAt === null
              ? holdWords.dueUnknown
              : nearText(dueAt, now, zone)
            : `${nameOf(by)}, ${momentText(at, zone, now)}`}
        </p>
      </div>
      <div>
        <p className={classes.alertHead}>
          <Mark {...marks[state]} word={holdWords.states[state]} />
          <span className={classes.strong}>{holdPoints[point]}</span>
        </p>
        <p>{saw === null ? because : `“${saw}”`}</p>
        {passed !== undefined && (
          <p>
            <Link href={paths.entry(passed.entry)}>{say.wentPast(passedBy.length)}</Link>
          </p>
        )}
        {findings.map(({ what }) => (
          <p key={what}>{what}</p>
        ))}
        <p>
          <Link href={paths.bay(bay)}>{say.decide}</Link>
        </p>
      </div>
    </li>
  )
}
