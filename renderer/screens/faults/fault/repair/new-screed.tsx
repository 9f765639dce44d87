import { Button } from '@mantine/core'
import type { FaultPage } from '#model/contract/faults.ts'
import type { NewScreedDrying } from '#model/drying/forecast-shape.ts'
import { client } from '../../../../app/client.ts'
import { useLongWork } from '../../../../app/long-work.ts'
import { troubleOf } from '../../../../app/trouble.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { Banner, Note } from '../../../../parts/banner.tsx'
import classes from '../fault.module.css'

const words = faultsWords.newScreed

export type NewScreedDays = NonNullable<FaultPage['newScreedDays']>

interface NewScreedProps {
  page: FaultPage
  onDays: (days: NewScreedDays) => void
}

/** How long new screed would dry: by the rule of thumb, until the forecast for this room is asked for. */
export function NewScreed({ page, onDays }: NewScreedProps) {
  const { newScreedDays } = page
  const { state, start, stop } = useLongWork<NewScreedDrying>()
  const ask = () =>
    void start(async (signal, progress) => {
      for await (const event of await client.faults.newScreed({ defect: page.fault.id }, { signal })) {
        if (event.kind === 'done') {
          const { p50Days, p90Days } = event.drying
          if (p50Days !== null && p90Days !== null) onDays({ p50: p50Days, p90: p90Days })
          return event.drying
        }
        progress(event.done, event.of)
      }
      return null
    })
  return (
    <div className={classes.newScreed}>
      <p>
        {newScreedDays === null
          ? words.rule
          : words.found(Math.ceil(newScreedDays.p50), Math.ceil(newScreedDays.p90))}
      </p>
      {state.kind === 'running' ? (
        <p role="status" className={classes.acts}>
          {words.running(Math.floor((100 * state.done) / Math.max(1, state.of)))}{' '}
          <Button variant="default" onClick={stop}>
            {allWords.bundle.make.stop}
          </Button>
        </p>
      ) : (
        <Button variant="default" onClick={ask}>
          {words.ask}
        </Button>
      )}
      {state.kind === 'done' && <NotFound drying={state.result} />}
      {state.kind === 'failed' && <Banner trouble={troubleOf(state.error)} />}
    </div>
  )
}

/** What stands in the way of a forecast; nothing where there is one. */
function NotFound({ drying: { p50Days, p90Days, missing } }: { drying: NewScreedDrying }) {
  if (missing.length > 0) return <Note tone="act">{words.missing(missing.join(' '))}</Note>
  return p50Days === null || p90Days === null ? <Note tone="act">{words.notReached}</Note> : null
}
