import { Button } from '@mantine/core'
import { useState } from 'react'
import { Link } from 'wouter'
import type { FaultFact, FaultPage, FaultState } from '#model/contract/faults.ts'
import { type RepairOptionId, repairOptionWords } from '#model/faults/words.ts'
import { kinds } from '#model/record/kinds.ts'
import { nowMs, useNow } from '../../../../app/clock.ts'
import { useJob } from '../../../../app/job.tsx'
import { paths } from '../../../../app/paths.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { Note } from '../../../../parts/banner.tsx'
import { CautionLines } from '../../../../parts/caution.tsx'
import { EntryForm } from '../../../../parts/entry-form/entry-form.tsx'
import { Mark } from '../../../../parts/mark.tsx'
import { Section } from '../../../../parts/page.tsx'
import { calendarDayText, nearText, siteDay } from '../../../../parts/site-time.ts'
import classes from '../fault.module.css'
import { CloseFault } from './close-fault.tsx'
import { optionCautions } from './option-cautions.ts'

const words = faultsWords.work

/** What is done next with a fault in each state; its button stands out. */
const nextStep: Record<FaultState, 'repair' | 'retest' | 'close' | null> = {
  open: null,
  'cause named': 'repair',
  repaired: 'retest',
  're-test failed': 'repair',
  're-tested': 'close',
  closed: null,
}

/** What was done about it: repairs, their re-tests, and how it was closed. */
export function Work({ page }: { page: FaultPage }) {
  const [form, setForm] = useState<'repair' | 'retest' | 'close' | null>(null)
  const { named, repairs, fault, closed } = page
  const last = repairs.at(-1)
  const open = fault.state !== 'closed'
  const done = () => setForm(null)
  const next = nextStep[fault.state]
  return (
    <Section title={words.title}>
      {repairs.length === 0 && <p className={classes.soft}>{words.none}</p>}
      <ul className={classes.plain}>
        {repairs.map((repair) => (
          <Repair key={repair.id} repair={repair} page={page} />
        ))}
      </ul>
      {onceEach(closed).map((one) => (
        <Closed key={one.id} closed={one} />
      ))}
      {open && named === null && <Note>{words.nameFirst}</Note>}
      {open && form === null && (
        <div className={classes.acts}>
          {named !== null && (
            <Button variant={next === 'repair' ? 'filled' : 'default'} onClick={() => setForm('repair')}>
              {words.record}
            </Button>
          )}
          {last !== undefined && (
            <Button variant={next === 'retest' ? 'filled' : 'default'} onClick={() => setForm('retest')}>
              {words.retest}
            </Button>
          )}
          <Button variant={next === 'close' ? 'filled' : 'default'} onClick={() => setForm('close')}>
            {words.close}
          </Button>
        </div>
      )}
      {form === 'repair' && named !== null && <RepairForm page={page} diagnosis={named.id} onDone={done} />}
      {form === 'retest' && last !== undefined && (
        <div className={classes.inlineForm}>
          <h3 className={classes.formTitle}>{words.retest}</h3>
          <EntryForm
            kind="repair-retested"
            subject={fault.bay}
            draftKey={`repair-retested ${last.id}`}
            start={{ repair: last.id }}
            given={['repair']}
            saveLabel={words.saveRetest}
            onSaved={done}
          />
          <Leave onLeave={done} />
        </div>
      )}
      {form === 'close' && <CloseFault page={page} onDone={done} />}
    </Section>
  )
}

function Leave({ onLeave }: { onLeave: () => void }) {
  return (
    <div className={classes.acts}>
      <Button variant="subtle" onClick={onLeave}>
        {faultsWords.answer.close}
      </Button>
    </div>
  )
}

interface RepairFormProps {
  page: FaultPage
  diagnosis: string
  onDone: () => void
}

function RepairForm({ page, diagnosis, onDone }: RepairFormProps) {
  const { zone } = useJob()
  const { fault } = page
  const today = siteDay(nowMs(), zone)
  return (
    <div className={classes.inlineForm}>
      <h3 className={classes.formTitle}>{words.record}</h3>
      <EntryForm
        kind="repair-done"
        subject={fault.bay}
        draftKey={`repair-done ${fault.id} ${diagnosis}`}
        start={{ defect: fault.id, diagnosis, startedOn: today, finishedOn: today }}
        given={['defect', 'diagnosis']}
        saveLabel={words.save}
        live={({ draft }) => {
          const option = draft.values.option
          return isOption(option) && optionCautions[option].length > 0 ? (
            <CautionLines ids={optionCautions[option]} subject={fault.bay} />
          ) : undefined
        }}
        onSaved={onDone}
      />
      <Leave onLeave={onDone} />
    </div>
  )
}

function Repair({ repair, page }: { repair: FaultFact<'repair-done'>; page: FaultPage }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const retests = page.retests.filter(({ body }) => body.repair === repair.id)
  const { option, finishedOn, note } = repair.body
  return (
    <li className={classes.repair}>
      <p>
        <strong>{words.repaired(repairOptionWords[option], calendarDayText(finishedOn))}</strong>{' '}
        <span className={classes.soft}>{nameOf(repair.person)}</span>{' '}
        <Link href={paths.entry(repair.id)}>{faultsWords.page.entry}</Link>
      </p>
      {note !== undefined && <p>{note}</p>}
      {retests.length === 0 && <Mark shape="diamondAsk" tone="unproven" word={words.noRetest} />}
      {retests.map(({ id, happenedAt, body }) => (
        <p key={id}>
          <Mark {...retestLooks[body.result]} word={words.retestResults[body.result]} />{' '}
          {nearText(happenedAt, now, zone)}
          {body.note !== undefined && `. ${body.note}`}{' '}
          <Link href={paths.entry(id)}>{faultsWords.page.entry}</Link>
        </p>
      ))}
    </li>
  )
}

const retestLooks = {
  passed: { shape: 'discTick', tone: 'good' },
  failed: { shape: 'squareCross', tone: 'stop' },
  'not known': { shape: 'diamondAsk', tone: 'unproven' },
} as const

/** Closing a fault closes each symptom of it by an entry of its own; a reader is told once. */
function onceEach(closed: readonly FaultFact<'defect-closed'>[]): FaultFact<'defect-closed'>[] {
  const sayings = closed.map(({ person, happenedAt, body: { how, note } }) =>
    JSON.stringify([person, happenedAt, how, note]),
  )
  return closed.filter((_, i) => sayings.indexOf(sayings[i]!) === i)
}

function Closed({ closed }: { closed: FaultFact<'defect-closed'> }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const how = kinds['defect-closed'].fields.how.options[closed.body.how]
  return (
    <div className={classes.named}>
      <p className={classes.namedCause}>
        {words.closed(how, nameOf(closed.person), nearText(closed.happenedAt, now, zone))}
      </p>
      <p>{closed.body.note}</p>
    </div>
  )
}

const isOption = (value: unknown): value is RepairOptionId =>
  typeof value === 'string' && Object.hasOwn(repairOptionWords, value)
