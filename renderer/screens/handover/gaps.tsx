import { Link } from 'wouter'
import type { ProjectOutline } from '#model/contract/index.ts'
import type { BayGap, BayGaps } from '#model/contract/reports.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { handoverWords } from '../../app/words/handover.ts'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './handover.module.css'
import { openGaps } from './open-gaps.ts'

const words = handoverWords.gaps

interface GapsProps {
  chosen: readonly ProjectOutline['bays'][number][]
  known: readonly BayGaps[] | null
}

/** What is missing of the chosen bays, bay by bay. */
export function Gaps({ chosen, known }: GapsProps) {
  if (chosen.length === 0) return <p>{words.noneChosen}</p>
  if (known === null) return <Waiting />
  const withGaps = chosen.flatMap(({ id }) => {
    const gaps = known.find((one) => one.bay === id)?.gaps ?? []
    return openGaps(gaps).length === 0 ? [] : [{ id, gaps }]
  })
  return (
    <>
      <p className={classes.soft}>{words.lead}</p>
      {withGaps.length === 0 && <p>{words.none}</p>}
      {withGaps.map(({ id, gaps }) => (
        <BayPart key={id} bay={id} gaps={gaps} />
      ))}
    </>
  )
}

function BayPart({ bay, gaps }: { bay: string; gaps: readonly BayGap[] }) {
  const { nameOf } = useJob()
  const open = openGaps(gaps)
  const later = gaps.filter(({ state }) => state === 'not yet').length
  return (
    <details className={classes.details}>
      <summary className={classes.summary}>
        <strong>{nameOf(bay)}</strong>{' '}
        <span className={classes.soft}>{handoverWords.bays.gaps(open.length)}</span>
      </summary>
      <ul className={classes.gapList}>
        {open.map(({ what, state, because }) => (
          <li key={what}>
            <strong>{words.states[state]}</strong>: {what}. <span className={classes.soft}>{because}</span>
          </li>
        ))}
      </ul>
      {later > 0 && <p className={classes.soft}>{words.later(later)}</p>}
      <p>
        <Link href={paths.auditBay(bay)}>{nameOf(bay)}</Link>
      </p>
    </details>
  )
}
