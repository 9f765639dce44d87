import { Button } from '@mantine/core'
import { useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberText } from '../../../../parts/number-text.ts'
import { Section } from '../../../../parts/page.tsx'
import { WhyButton } from '../../../../parts/why.tsx'
import classes from '../fault.module.css'
import { whyStrength } from '../whys.ts'
import { BarKey } from './cause-bar.tsx'
import { CauseRow } from './cause-row.tsx'
import { Conflicts } from './conflicts.tsx'
import { Neighbours } from './neighbours.tsx'

const words = faultsWords.causes
const leading = 6

/** The causes, the likeliest first, each opening into what speaks for and against it. */
export function Causes({ page }: { page: FaultPage }) {
  const [all, setAll] = useState(false)
  const { diagnosis } = page
  const { causes } = diagnosis
  const percent = numberText(diagnosis.recordStrengthPercent, 0)
  return (
    <Section title={words.title}>
      <p className={diagnosis.tooThin ? classes.tooThin : classes.verdict}>{diagnosis.words}</p>
      <p className={classes.strength}>
        <svg className={classes.meter} width={160} height={12} aria-hidden>
          <rect width="100%" height={12} className={classes.track} />
          <rect width={`${diagnosis.recordStrengthPercent}%`} height={12} className={classes.full} />
        </svg>
        <strong>
          {words.strength}: {percent} %
        </strong>
        <WhyButton why={whyStrength(diagnosis)} />
        <span className={classes.soft}>{words.strengthWords(percent)}</span>
      </p>
      <Conflicts conflicts={diagnosis.conflicts} />
      <BarKey hasConflict={diagnosis.conflicts.length > 0} />
      <div className={classes.causes}>
        {(all ? causes : causes.slice(0, leading)).map((cause) => (
          <CauseRow key={cause.id} cause={cause} diagnosis={diagnosis} />
        ))}
      </div>
      <div className={classes.acts}>
        <Button variant="default" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? words.fewer : words.all(causes.length)}
        </Button>
      </div>
      <p className={classes.caution}>{words.lead}</p>
      <Neighbours diagnosis={diagnosis} />
    </Section>
  )
}
