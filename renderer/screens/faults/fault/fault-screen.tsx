import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useParams } from 'wouter'
import type { FaultPage } from '#model/contract/faults.ts'
import type { EvidenceId } from '#model/faults/evidence.ts'
import type { EntryId } from '#model/record/ids.ts'
import { symptoms } from '#model/record/words.ts'
import { orpc } from '../../../app/client.ts'
import { useJob } from '../../../app/job.tsx'
import { paths } from '../../../app/paths.ts'
import { ActionLink } from '../../../app/shell.tsx'
import { troubleOf } from '../../../app/trouble.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { Banner } from '../../../parts/banner.tsx'
import { Page } from '../../../parts/page.tsx'
import { Waiting } from '../../../parts/waiting.tsx'
import { AnswerForm } from './answer-form.tsx'
import { Causes } from './causes/causes.tsx'
import { NotExamined } from './causes/not-examined.tsx'
import classes from './fault.module.css'
import { Freeze } from './freeze/freeze.tsx'
import { GaugePart } from './gauge/gauge-part.tsx'
import { NameCause } from './name-cause.tsx'
import { NextTests } from './next-tests.tsx'
import { TwoPages } from './print/two-pages.tsx'
import { useDaysLeft } from './repair/days-left.tsx'
import type { NewScreedDays } from './repair/new-screed.tsx'
import { Options } from './repair/options.tsx'
import { Work } from './repair/work.tsx'
import { Seen } from './seen.tsx'
import { Steps } from './steps.tsx'

const words = faultsWords.page

/** One fault: what is seen, why, what to look at next, what can be done, what was done. */
export default function FaultScreen() {
  const { fault = '' } = useParams<{ fault: string }>()
  const { daysLeft, setDaysLeft } = useDaysLeft(fault)
  const [newScreed, setNewScreed] = useState<{ of: string; days: NewScreedDays } | null>(null)
  const input = {
    defect: fault as EntryId,
    ...(daysLeft === null ? {} : { daysLeft }),
    ...(newScreed?.of === fault ? { newScreedDays: newScreed.days } : {}),
  }
  const { data, error, refetch } = useQuery({
    ...orpc.faults.page.queryOptions({ input }),
    // Another number of days changes the costs only: what is shown stays until they are there.
    placeholderData: (before) => (before?.fault.defects.includes(input.defect) ? before : undefined),
  })
  if (data === undefined) {
    return error === null ? <Waiting /> : <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  }
  return (
    <FaultSheet
      key={data.fault.id}
      page={data}
      onDaysLeft={setDaysLeft}
      onNewScreed={(days) => setNewScreed({ of: fault, days })}
    />
  )
}

interface FaultSheetProps {
  page: FaultPage
  onDaysLeft: (days: number | null) => void
  onNewScreed: (days: NewScreedDays) => void
}

function FaultSheet({ page, onDaysLeft, onNewScreed }: FaultSheetProps) {
  const { nameOf } = useJob()
  const { fault, place, diagnosis } = page
  const [answering, setAnswering] = useState<EvidenceId | 'any' | null>(null)
  const [main, ...further] = fault.symptoms
  return (
    <>
      <div className={classes.screen}>
        <Page
          title={main === undefined ? faultsWords.title : symptoms[main]}
          lead={
            <>
              {words.lead(nameOf(fault.bay), `${place.zone}, ${place.floor}`)}
              {further.length > 0 && (
                <span>
                  . {words.also}: {further.map((code) => symptoms[code].toLowerCase()).join(', ')}
                </span>
              )}
            </>
          }
          actions={
            <>
              <Button variant="default" onClick={() => window.print()}>
                {words.print}
              </Button>
              <ActionLink href={paths.faults} quiet>
                {words.back}
              </ActionLink>
            </>
          }
        >
          <Steps page={page} />
          <Seen page={page} />
          <Causes page={page} />
          <NextTests diagnosis={diagnosis} onAnswer={setAnswering} />
          <NotExamined diagnosis={diagnosis} onAnswer={setAnswering} />
          {answering !== null && (
            <AnswerForm
              key={answering}
              page={page}
              evidence={answering === 'any' ? null : answering}
              onClose={() => setAnswering(null)}
            />
          )}
          {fault.movement !== null && <GaugePart page={page} />}
          <NameCause page={page} />
          <Options page={page} onDaysLeft={onDaysLeft} onNewScreed={onNewScreed} />
          <Work page={page} />
          <Freeze page={page} />
        </Page>
      </div>
      <TwoPages page={page} />
    </>
  )
}
