import { Button } from '@mantine/core'
import { Link, useParams } from 'wouter'
import { useJob } from '../../app/job.tsx'
import { NotHere } from '../../app/not-here.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { Empty, Page } from '../../parts/page.tsx'
import { AlertsPart } from './alerts-part.tsx'
import classes from './audit.module.css'
import { BayPage } from './bay-page.tsx'
import { ChainPart } from './chain-part.tsx'
import { ChangesPart } from './changes-part.tsx'
import { HoldsPart } from './holds-part.tsx'
import { BaysPart } from './matrix/bays-part.tsx'
import { QuestionsPart } from './questions-part.tsx'
import { TestsPart } from './tests-part.tsx'

const say = words.audit

const parts = {
  bays: BaysPart,
  questions: QuestionsPart,
  changes: ChangesPart,
  tests: TestsPart,
  alerts: AlertsPart,
  holds: HoldsPart,
  chain: ChainPart,
} as const
type PartName = keyof typeof parts

/** The quality manager's page: what is missing, what is open, what was changed, what would not stand a question. */
export default function AuditScreen() {
  const { part = 'bays', bay } = useParams<{ part?: string; bay?: string }>()
  const { outline } = useJob()
  const known = outline.bays.find(({ id }) => id === bay)
  if (part === 'bay') return known === undefined ? <NotHere /> : <BayPage key={known.id} bay={known.id} />
  if (!Object.hasOwn(parts, part)) return <NotHere />
  const name = part as PartName
  const Part = parts[name]
  const hasNoBays = outline.bays.length === 0 && name !== 'chain'
  return (
    <Page
      title={say.title}
      lead={say.leads[name]}
      actions={
        <Button variant="default" onClick={() => print()}>
          {say.print}
        </Button>
      }
    >
      <nav aria-label={say.title} className={classes.tabsNav}>
        <ul className={classes.tabs}>
          {Object.entries(say.parts).map(([one, word]) => (
            <li key={one}>
              <Link
                href={one === 'bays' ? paths.audit : paths.auditPart(one)}
                className={classes.tab}
                aria-current={one === name ? 'page' : undefined}
              >
                {word}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      {hasNoBays ? (
        <Empty title={say.noBays} action={<ActionLink href={paths.floors}>{say.toFloors}</ActionLink>}>
          {say.noBaysLead}
        </Empty>
      ) : (
        <Part />
      )}
    </Page>
  )
}
