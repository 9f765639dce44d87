import type { FaultPage } from '#model/contract/faults.ts'
import { symptoms } from '#model/record/words.ts'
import { useNow } from '../../../../app/clock.ts'
import { useJob } from '../../../../app/job.tsx'
import { faultsWords } from '../../../../app/words/faults.ts'
import { momentText } from '../../../../parts/site-time.ts'
import { FaultStateMark } from '../../fault-marks.tsx'
import { PageOne } from './page-one.tsx'
import { PageTwo } from './page-two.tsx'
import classes from './print.module.css'

const words = faultsWords.print

/** The fault on two sheets for a meeting: what it is and why; what can be done. Seen on paper only. */
export function TwoPages({ page }: { page: FaultPage }) {
  return (
    <div className={classes.paper}>
      <article className={classes.sheet}>
        <Head page={page} title={words.one} />
        <PageOne page={page} />
        <p className={classes.foot}>{words.disclaimer}</p>
      </article>
      <article className={classes.sheet}>
        <Head page={page} title={words.two} />
        <PageTwo page={page} />
        <p className={classes.foot}>{words.disclaimer}</p>
      </article>
    </div>
  )
}

function Head({ page, title }: { page: FaultPage; title: string }) {
  const { outline, nameOf, zone } = useJob()
  const now = useNow()
  const { fault, place } = page
  return (
    <header className={classes.head}>
      <div>
        <p className={classes.project}>{outline.project.body.name}</p>
        <p className={classes.title}>{fault.symptoms.map((code) => symptoms[code]).join(' · ')}</p>
        <p>
          {nameOf(fault.bay)}, {place.zone}, {place.floor}
        </p>
      </div>
      <div className={classes.headSide}>
        <FaultStateMark state={fault.state} />
        <p>{title}</p>
        <p>{words.asOf(momentText(page.asOf, zone, now))}</p>
      </div>
    </header>
  )
}
