import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { type Answer, witnesses } from '#model/audit/index.ts'
import type { AuditBay } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Page, Section } from '../../parts/page.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { AnswerSheet } from './answer-sheet.tsx'
import classes from './audit.module.css'
import { QuestionCard } from './question-card.tsx'

const say = words.audit

/** One bay: everything its record must hold, failing ones first, and how well its decisive facts are borne out. */
export function BayPage({ bay }: { bay: BayId }) {
  const { nameOf } = useJob()
  const { data, error, isPending, refetch } = useQuery(orpc.audit.bay.queryOptions({ input: { bay } }))
  return (
    <Page
      title={`${say.title}: ${nameOf(bay)}`}
      lead={
        data === undefined
          ? undefined
          : say.bay.lead(
              data.completeness.met,
              data.completeness.applicable,
              say.release[data.completeness.release],
            )
      }
      actions={
        <>
          <ActionLink href={paths.audit} quiet>
            {say.bay.back}
          </ActionLink>
          <ActionLink href={paths.bay(bay)} quiet>
            {say.bay.life}
          </ActionLink>
        </>
      }
    >
      {isPending && <Waiting />}
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {data !== undefined && <Whole audit={data} />}
    </Page>
  )
}

function Whole({ audit }: { audit: AuditBay }) {
  const { answers, completeness, entries, questions } = audit
  const failing = completeness.failing.flatMap((id) => answers.find((one) => one.id === id) ?? [])
  const others = answers.filter(({ id }) => !completeness.failing.includes(id))
  const list = (some: readonly Answer[]) => (
    <ul className={classes.answers}>
      {some.map((answer) => (
        <li key={answer.id}>
          <AnswerSheet bay={audit.bay} answer={answer} entries={entries} />
        </li>
      ))}
    </ul>
  )
  return (
    <>
      <Section title={say.bay.failing}>
        {failing.length === 0 ? <p>{say.bay.nothingFails}</p> : list(failing)}
      </Section>
      <Section title={say.bay.corroboration}>
        <p className={classes.lead}>{say.bay.corroborationLead}</p>
        <BorneOut audit={audit} />
      </Section>
      <Section title={say.bay.questions}>
        {questions.length === 0 && <p>{say.bay.noQuestions}</p>}
        <ul className={classes.cards}>
          {questions.map((question) => (
            <QuestionCard key={question.id} question={question} />
          ))}
        </ul>
      </Section>
      <Section title={say.bay.others}>{list(others)}</Section>
    </>
  )
}

function BorneOut({ audit: { corroboration } }: { audit: AuditBay }) {
  if (corroboration.length === 0) return <p>{say.bay.noCorroboration}</p>
  return (
    <ul className={classes.borneOut}>
      {corroboration.map(({ fact, entry, mark, by }) => (
        <li key={fact} className={classes.witnessed}>
          <Link href={paths.entry(entry)}>{fact}</Link>
          <span className={classes.pips} data-mark={mark}>
            <span aria-hidden>
              {'●'.repeat(mark)}
              {'○'.repeat(3 - mark)}
            </span>{' '}
            {say.bay.mark(mark)}
          </span>
          <span className={classes.soft}>
            {by.length === 0
              ? say.bay.onlyWord
              : by.map((one, i) => (
                  <span key={one.witness}>
                    {i > 0 && ', '}
                    <Link href={paths.entry(one.entry)}>{witnesses[one.witness]}</Link>
                  </span>
                ))}
          </span>
        </li>
      ))}
    </ul>
  )
}
