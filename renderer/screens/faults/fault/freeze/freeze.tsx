import { Button } from '@mantine/core'
import { useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { Note } from '../../../../parts/banner.tsx'
import { Section } from '../../../../parts/page.tsx'
import classes from '../fault.module.css'
import { FreezeForm } from './freeze-form.tsx'
import { Frozen } from './frozen.tsx'

const words = faultsWords.freeze

/** What was frozen of the evidence, and a way to freeze it as it stands now. */
export function Freeze({ page }: { page: FaultPage }) {
  const [state, setState] = useState<'closed' | 'open' | 'done'>('closed')
  return (
    <Section title={words.title}>
      {page.frozen.length === 0 && <p className={classes.soft}>{words.none}</p>}
      {page.frozen.toReversed().map((seal) => (
        <Frozen key={seal.id} seal={seal} />
      ))}
      {state === 'done' && (
        <div className={classes.said} role="status">
          <Note tone="good">{words.done}</Note>
        </div>
      )}
      {state === 'open' ? (
        <FreezeForm page={page} onDone={() => setState('done')} onLeave={() => setState('closed')} />
      ) : (
        <div className={classes.acts}>
          <Button variant="default" onClick={() => setState('open')}>
            {words.open}
          </Button>
        </div>
      )}
    </Section>
  )
}
