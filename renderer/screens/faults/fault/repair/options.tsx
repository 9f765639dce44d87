import { Button } from '@mantine/core'
import { useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import type { RepairOptionId } from '#model/faults/words.ts'
import type { CautionId } from '../../../../app/words/cautions.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { Note } from '../../../../parts/banner.tsx'
import { CautionLines } from '../../../../parts/caution.tsx'
import { Section } from '../../../../parts/page.tsx'
import classes from '../fault.module.css'
import { DaysLeft } from './days-left.tsx'
import { NewScreed, type NewScreedDays } from './new-screed.tsx'
import { optionCautions } from './option-cautions.ts'
import { OptionsTable } from './options-table.tsx'
import { RatesForm } from './rates-form.tsx'

const words = faultsWords.options

interface OptionsProps {
  page: FaultPage
  onDaysLeft: (days: number | null) => void
  onNewScreed: (days: NewScreedDays) => void
}

/** What can be done: the rule that decides, the options set beside each other, the rates behind the costs. */
export function Options({ page, onDaysLeft, onNewScreed }: OptionsProps) {
  const [editing, setEditing] = useState(false)
  const { decision, options, rates, fault } = page
  const allowed = options.filter(({ verdict }) => verdict === 'allowed').map(({ option }) => option)
  return (
    <Section
      title={words.title}
      aside={
        !editing && (
          <Button variant="default" onClick={() => setEditing(true)}>
            {words.rates}
          </Button>
        )
      }
    >
      <Decision page={page} />
      {rates.basis === 'illustrative' ? (
        <Note tone="act">{words.illustrative}</Note>
      ) : (
        <Note>{words.own}</Note>
      )}
      {editing && <RatesForm page={page} onDone={() => setEditing(false)} />}
      <DaysLeft value={page.daysLeft} onChange={onDaysLeft} />
      <NewScreed page={page} onDays={onNewScreed} />
      <OptionsTable page={page} />
      <p className={classes.caution}>{words.caution}</p>
      <CautionLines ids={cautionsOf(allowed, decision.outcome === 'stop: engineer')} subject={fault.bay} />
    </Section>
  )
}

/** The rule that comes first, in words. */
export function Decision({ page: { decision, options } }: { page: FaultPage }) {
  const none = decision.outcome === 'choose' && options.every(({ verdict }) => verdict !== 'allowed')
  return (
    <div className={classes.decision} data-outcome={decision.outcome}>
      <p className={classes.outcome}>
        {none ? words.noneAllowed : words.outcomes[decision.outcome]}
        {decision.rule !== null && <span className={classes.ruleId}>{words.rule(decision.rule)}</span>}
      </p>
      <p>{decision.because}</p>
      {decision.next !== null && (
        <p>
          <strong>{words.next}:</strong> {decision.next}
        </p>
      )}
    </div>
  )
}

/** The dangers of the repairs that may be done; of structure first, where there is doubt. */
function cautionsOf(allowed: readonly RepairOptionId[], structural: boolean): CautionId[] {
  const first: CautionId[] = structural ? ['structure'] : []
  return [...new Set([...first, ...allowed.flatMap((option) => optionCautions[option])])]
}
