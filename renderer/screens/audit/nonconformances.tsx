import { Button, Select } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import type { AuditOpen } from '#model/contract/index.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Note } from '../../parts/banner.tsx'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import { Mark } from '../../parts/mark.tsx'
import { Section } from '../../parts/page.tsx'
import { calendarDayText, momentText, siteDay } from '../../parts/site-time.ts'
import classes from './audit.module.css'
import { RaiseForm } from './raise-form.tsx'

const say = words.audit.holds
type Raised = AuditOpen['nonconformances'][number]

/** What was raised: open ones first, each with its owner and its day; closed by somebody else than who raised it. */
export function Nonconformances({ list }: { list: readonly Raised[] }) {
  const { outline, nameOf } = useJob()
  const [bay, setBay] = useState<string | null>(null)
  const sorted = list.toSorted((a, b) => Number(a.closed !== null) - Number(b.closed !== null))
  return (
    <Section title={say.nonconformances}>
      {list.length === 0 && <p>{say.noNonconformances}</p>}
      <ul className={classes.lines}>
        {sorted.map((one) => (
          <RaisedLine key={one.entry} raised={one} />
        ))}
      </ul>
      <div className={classes.raise}>
        <Select
          label={say.raise}
          placeholder={say.bay}
          searchable
          clearable
          data={outline.bays.map(({ id }) => ({ value: id as string, label: nameOf(id) }))}
          value={bay}
          onChange={setBay}
        />
        {bay !== null && <RaiseForm key={bay} bay={bay} rule="" what="" onDone={() => setBay(null)} />}
      </div>
    </Section>
  )
}

function RaisedLine({ raised }: { raised: Raised }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const [closing, setClosing] = useState(false)
  const writer = useWriter()
  const { bay, entry, rule, what, raisedBy, raisedAt, owner, dueOn, closed, closedByRaiser } = raised
  const isOverdue = closed === null && dueOn !== null && dueOn < siteDay(now, zone)
  return (
    <li className={classes.line}>
      <div>
        <p>
          <Link href={paths.auditBay(bay)} className={classes.strong}>
            {nameOf(bay)}
          </Link>
        </p>
        <p>
          {closed === null ? (
            <Mark shape="trianglePoint" tone="act" word={say.open} />
          ) : (
            <Mark shape="discTick" tone="good" word={say.closed} />
          )}
        </p>
      </div>
      <div>
        <p>
          <Link href={paths.entry(entry)} className={classes.strong}>
            {rule}
          </Link>
        </p>
        <p>{what}</p>
        <p className={classes.soft}>{say.raised(nameOf(raisedBy), momentText(raisedAt, zone, now))}</p>
        <p>
          {owner === null ? say.noOwner : say.owner(nameOf(owner))}.{' '}
          {dueOn === null ? (
            say.noDue
          ) : isOverdue ? (
            <Mark shape="trianglePoint" tone="stop" word={say.overdue(calendarDayText(dueOn))} size={17} />
          ) : (
            say.due(calendarDayText(dueOn))
          )}
        </p>
        {closed !== null && (
          <>
            <p>
              <Link href={paths.entry(closed.entry)}>
                {say.closedBy(nameOf(closed.by), momentText(closed.at, zone, now))}
              </Link>
              . {say.cause}: {closed.cause} {say.action}: {closed.action}
            </p>
            {closedByRaiser && <Note tone="act">{say.sameHand}</Note>}
          </>
        )}
        {closed === null && !closing && (
          <div className={classes.acts}>
            <Button variant="default" disabled={writer === raisedBy} onClick={() => setClosing(true)}>
              {say.close}
            </Button>
            {writer === raisedBy && <p className={classes.soft}>{say.ownHand}</p>}
          </div>
        )}
        {closing && (
          <div className={classes.form}>
            <EntryForm
              kind="nonconformance-closed"
              subject={bay}
              draftKey={`nonconformance-closed ${entry}`}
              start={{ raised: entry }}
              given={['raised']}
              saveLabel={say.saveClose}
              onSaved={() => setClosing(false)}
            />
            <Button variant="subtle" onClick={() => setClosing(false)}>
              {say.cancel}
            </Button>
          </div>
        )}
      </div>
    </li>
  )
}
