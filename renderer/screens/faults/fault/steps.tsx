import type { FaultPage, FaultState } from '#model/contract/faults.ts'
import { useNow } from '../../../app/clock.ts'
import { useJob } from '../../../app/job.tsx'
import { faultsWords } from '../../../app/words/faults.ts'
import { nearText } from '../../../parts/site-time.ts'
import { FaultStateMark } from '../fault-marks.tsx'
import classes from './fault.module.css'

const path: readonly FaultState[] = ['open', 'cause named', 'repaired', 're-tested', 'closed']

/** How far the fault has come, from open to closed, with when it came there. */
export function Steps({ page }: { page: FaultPage }) {
  const { zone } = useJob()
  const now = useNow()
  const { state, since } = page.fault
  const shown = state === 're-test failed' ? path.map((one) => (one === 're-tested' ? state : one)) : path
  const here = shown.indexOf(state)
  return (
    <ol className={classes.steps} aria-label={faultsWords.page.steps}>
      {shown.map((step, i) => (
        <li
          key={step}
          className={classes.step}
          data-when={i < here ? 'before' : i === here ? 'now' : 'after'}
        >
          {i === here ? (
            <span aria-current="step">
              <FaultStateMark state={step} />
            </span>
          ) : (
            faultsWords.states[step]
          )}
          {i === here && <span className={classes.soft}>{nearText(since, now, zone)}</span>}
        </li>
      ))}
    </ol>
  )
}
