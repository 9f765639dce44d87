import { Button } from '@mantine/core'
import { type ReactNode, useState } from 'react'
import { type Answer, requirements } from '#model/audit/index.ts'
import type { EntryLabel } from '#model/contract/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { momentText, saidOnSite } from '../../parts/site-time.ts'
import classes from './audit.module.css'
import { EntryLinks } from './entry-links.tsx'
import { RaiseForm } from './raise-form.tsx'
import { StandingMark, standingOf } from './standing.tsx'

const say = words.audit.detail

interface AnswerSheetProps {
  bay: string
  answer: Answer
  entries: readonly EntryLabel[]
}

/** One requirement of one bay: how it stands and why, what shows it, what to do about it. */
export function AnswerSheet({ bay, answer, entries }: AnswerSheetProps) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const requirement = requirements.find(({ id }) => id === answer.id)!
  const standing = standingOf(answer)
  const isOpen = standing === 'not met' || standing === 'not known' || standing === 'not yet'
  const { closed } = answer.answered ?? { closed: null }
  return (
    <div className={classes.answer}>
      <h3 className={classes.answerTitle}>
        {requirement.id} {requirement.title}, {nameOf(bay)}
        <StandingMark standing={standing} />
      </h3>
      <dl className={classes.facts}>
        <Fact name={say.because}>{saidOnSite(answer.because, zone)}</Fact>
        {closed !== null && (
          <Fact name={words.audit.states.answered}>
            {say.answered(nameOf(closed.by), momentText(closed.at, zone, now), closed.action)}
          </Fact>
        )}
        <Fact name={say.asks}>{requirement.asks}</Fact>
        <Fact name={say.evidence}>
          <EntryLinks ids={answer.entries} known={entries} />
        </Fact>
        {isOpen && <Fact name={say.do}>{requirement.whatToDo}</Fact>}
        <Fact name={say.source}>
          {requirement.source} ({requirement.provenance})
        </Fact>
      </dl>
      {isOpen && <Acts bay={bay} answer={answer} />}
    </div>
  )
}

/** What closes the gap: the entry that is missing, or a non-conformance that says why it stays. */
function Acts({ bay, answer }: { bay: string; answer: Answer }) {
  const { outline } = useJob()
  const [raising, setRaising] = useState(false)
  const requirement = requirements.find(({ id }) => id === answer.id)!
  const { record, id, title, mayBeAnswered } = requirement
  const zoneOfBay = outline.bays.find((one) => one.id === bay)?.body.zone
  if (raising) {
    return (
      <RaiseForm bay={bay} rule={`${id}: ${title}`} what={answer.because} onDone={() => setRaising(false)} />
    )
  }
  return (
    <div className={classes.acts}>
      {id === 'C1' && (
        <ActionLink href={paths.setUpPart('places')} quiet>
          {say.toPlaces}
        </ActionLink>
      )}
      {record !== null && record !== 'nonconformance-closed' && (
        <ActionLink
          href={paths.recordKind(record, kinds[record].about === 'zone' ? (zoneOfBay ?? bay) : bay)}
          quiet
        >
          {say.record(kinds[record].title)}
        </ActionLink>
      )}
      {record === 'nonconformance-closed' && (
        <>
          <ActionLink href={paths.auditPart('alerts')} quiet>
            {words.audit.parts.alerts}
          </ActionLink>
          <ActionLink href={paths.auditPart('holds')} quiet>
            {words.audit.parts.holds}
          </ActionLink>
        </>
      )}
      {mayBeAnswered && !answer.notYet && (
        <>
          <Button variant="default" onClick={() => setRaising(true)}>
            {say.raise}
          </Button>
          <p className={classes.soft}>{say.raiseHelp}</p>
        </>
      )}
    </div>
  )
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}
