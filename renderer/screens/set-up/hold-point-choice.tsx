import { Button, Checkbox, TextInput } from '@mantine/core'
import { useState } from 'react'
import { type HoldPoint, holdPoints } from '#model/record/people.ts'
import { holdWords } from '../../app/words/hold-points.ts'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './set-up.module.css'
import { useProjectChange } from './use-project-change.ts'

const say = holdWords.choice
const all = Object.keys(holdPoints) as HoldPoint[]

/** Which hold points bind in this project; a change is a correction of the project with its reason. */
export function HoldPointChoice() {
  const change = useProjectChange()
  const chosen = change.body.holdPoints?.map(({ point }) => point) ?? all
  const [picked, setPicked] = useState<readonly HoldPoint[] | null>(null)
  const [reason, setReason] = useState('')
  const ticked = picked ?? chosen
  const isChanged = all.some((point) => ticked.includes(point) !== chosen.includes(point))
  const save = () => {
    const holds = all.filter((point) => ticked.includes(point)).map((point) => ({ point }))
    void change
      .save({ holdPoints: holds }, say.changed(reason.trim()))
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
      <Checkbox.Group
        aria-label={say.title}
        value={[...ticked]}
        onChange={(values) => setPicked(values as HoldPoint[])}
      >
        <div className={classes.ticks}>
          {all.map((point) => (
            <Checkbox key={point} size="md" value={point} label={holdPoints[point]} />
          ))}
        </div>
      </Checkbox.Group>
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
