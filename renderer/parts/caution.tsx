import { Checkbox } from '@mantine/core'
import { useState } from 'react'
import type { KindName } from '#model/record/kinds.ts'
import { nowMs, useNow } from '../app/clock.ts'
import { useJob } from '../app/job.tsx'
import { recall, remember } from '../app/memory.ts'
import type { CautionId } from '../app/words/cautions.ts'
import { words } from '../app/words.ts'
import classes from './caution.module.css'
import { cautionsFor } from './caution-triggers.ts'
import type { DraftValues } from './entry-form/draft.ts'
import { Mark } from './mark.tsx'
import { momentText, siteDay } from './site-time.ts'

interface CautionsProps {
  kind: KindName
  values: DraftValues
  subject: string
}

/** The cautions of the work at hand: one line each, where it is done, with a tick that nobody is forced to make. */
export function Cautions({ kind, values, subject }: CautionsProps) {
  return <CautionLines ids={cautionsFor(kind, values)} subject={subject} />
}

/** The cautions of any work, said where it is chosen. */
export function CautionLines({ ids, subject }: { ids: readonly CautionId[]; subject: string }) {
  if (ids.length === 0) return null
  return (
    <aside className={classes.box}>
      {ids.map((id) => (
        <p key={id} className={classes.line}>
          <Mark shape="trianglePoint" tone="act" word="" bare />
          <span>{words.cautions[id]}</span>
        </p>
      ))}
      <p className={classes.follow}>{words.record.caution.follow}</p>
      <PassedOn key={ids.join()} name={ids.join(' ')} subject={subject} />
    </aside>
  )
}

/** Remembered on this machine for the day; it is not part of the record and does not pretend to be. */
function PassedOn({ name, subject }: { name: string; subject: string }) {
  const { zone } = useJob()
  const now = useNow()
  const key = `caution ${name} ${subject} ${siteDay(now, zone)}`
  const [at, setAt] = useState(() => recall(key))
  const tick = (ticked: boolean) => {
    const value = ticked ? String(nowMs()) : null
    remember(key, value)
    setAt(value)
  }
  return (
    <Checkbox
      size="md"
      checked={at !== null}
      label={
        at === null ? words.record.caution.tick : words.record.caution.passed(momentText(Number(at), zone))
      }
      onChange={(event) => tick(event.currentTarget.checked)}
    />
  )
}
