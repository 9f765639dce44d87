import { Button } from '@mantine/core'
import { useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { EntryForm } from '../../../../parts/entry-form/entry-form.tsx'
import { numberText } from '../../../../parts/number-text.ts'
import { Section } from '../../../../parts/page.tsx'
import { WhyButton } from '../../../../parts/why.tsx'
import { MovementMark } from '../../fault-marks.tsx'
import classes from '../fault.module.css'
import { whyChange } from '../whys.ts'
import { GaugeChart } from './gauge-chart.tsx'

const words = faultsWords.gauge

/** Whether the crack lives: what was read, what it means, and the next reading. */
export function GaugePart({ page }: { page: FaultPage }) {
  const [reading, setReading] = useState(false)
  const { fault, gauged, movement } = page
  const lastPlace = gauged.at(-1)?.body.place
  return (
    <Section title={words.title} aside={<MovementMark verdict={movement.verdict} size={24} />}>
      <p className={classes.verdict}>{movement.words}</p>
      {movement.measure !== null && <p>{movement.measure}</p>}
      {gauged.length === 0 ? (
        <p className={classes.soft}>{words.none}</p>
      ) : (
        <>
          {movement.changeMm !== null && movement.days !== null && (
            <p>
              {words.change}: <strong>{numberText(movement.changeMm)} mm</strong>{' '}
              {words.over(numberText(movement.days, 0))} <WhyButton why={whyChange(movement)} />{' '}
              {words.follows}: {words.followsWords[movement.followsTemperature]}.
            </p>
          )}
          <GaugeChart page={page} />
        </>
      )}
      {reading ? (
        <div className={classes.inlineForm}>
          <EntryForm
            kind="crack-gauged"
            subject={fault.bay}
            draftKey={`crack-gauged ${fault.id}`}
            start={{ defect: fault.id, place: lastPlace }}
            given={['defect']}
            saveLabel={words.save}
            onSaved={() => setReading(false)}
          />
        </div>
      ) : (
        fault.state !== 'closed' && (
          <div className={classes.acts}>
            <Button onClick={() => setReading(true)}>{words.read}</Button>
          </div>
        )
      )}
    </Section>
  )
}
