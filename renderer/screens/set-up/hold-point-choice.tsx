import { Button, TextInput } from '@mantine/core'
import { useState } from 'react'
import type { HoldPoint } from '#model/record/people.ts'
import { holdWords } from '../../app/words/hold-points.ts'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { asBound, everyHoldPoint, HoldPointTicks } from './hold-point-ticks.tsx'
import classes from './set-up.module.css'
import { useProjectChange } from './use-project-change.ts'

const say = holdWords.choice

/** Which hold points bind in this project; a change is a correction of the project with its reason. */
export function HoldPointChoice() {
  const change = useProjectChange()
  const chosen = change.body.holdPoints?.map(({ point }) => point) ?? everyHoldPoint
  const [picked, setPicked] = useState<readonly HoldPoint[] | null>(null)
  const [reason, setReason] = useState('')
  const ticked = picked ?? chosen
  const isChanged = everyHoldPoint.some((point) => ticked.includes(point) !== chosen.includes(point))
  const save = () => {
    void change
      .save({ holdPoints: asBound(ticked) }, say.changed(reason.trim()))
      .then(() => {
        setPicked(null)
        setReason('')
      })
      .catch(() => undefined)
  }
  if (change.isPending) return <Waiting />
  return (
    <Section title={say.title}>
      <p className={classes.cardLine}>{say.lead}</p>
      {change.trouble !== null && <Banner trouble={change.trouble} />}
      <HoldPointTicks picked={ticked} onPick={setPicked} />
      {isChanged && (
        <div className={classes.form}>
          <TextInput
            label={say.reason}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <Button onClick={save} disabled={reason.trim() === ''} loading={change.isSaving}>
            {say.save}
          </Button>
        </div>
      )}
    </Section>
  )
}
