import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { BayState } from '#model/contract/index.ts'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { constructions, coverings, moistureMethods, screeds } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import type { Alert } from '#model/watch/alert.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { bayWords } from '../../app/words/bay.ts'
import { Banner } from '../../parts/banner.tsx'
import { numberText } from '../../parts/number-text.ts'
import { nearText } from '../../parts/site-time.ts'
import { StateMark } from '../../parts/state-mark.tsx'
import classes from './bay.module.css'
import type { BayReading } from './bay-reading.ts'
import { OpenAlerts } from './open-alerts.tsx'

const words = bayWords.head

interface BayHeadProps {
  state: BayState
  reading: Pick<BayReading, 'facts' | 'limit' | 'alerts'>
  onAlert: (alert: Alert) => void
}

/** What the bay is, how it stands, what is open, what comes next, and what one writes down about it most. */
export function BayHead({ state, reading, onAlert }: BayHeadProps) {
  const bay = reading.facts.story.bay.id
  return (
    <>
      <div className={classes.head}>
        <div>
          <div className={classes.state}>
            <StateMark state={state.word} size={28} />
            <p className={classes.because}>{state.because}</p>
          </div>
          <WhatItIs {...reading} />
        </div>
        <div>
          <div className={classes.block}>
            <h2 className={classes.small}>{bayWords.next.title}</h2>
            <NextActs bay={bay} />
          </div>
          <div className={classes.block}>
            <h2 className={classes.small}>{bayWords.alerts.title(state.openAlerts)}</h2>
            <OpenAlerts bay={bay} alerts={reading.alerts} onShow={onAlert} />
          </div>
        </div>
      </div>
      <QuickFacts bay={bay} kinds={quickKinds(reading.facts)} />
    </>
  )
}

function WhatItIs({ facts, limit }: Pick<BayReading, 'facts' | 'limit'>) {
  const { zone } = useJob()
  const now = useNow()
  const { bay, zone: ground } = facts.story
  const measured = facts.thickness.map(({ mm }) => mm)
  const mean = measured.reduce((sum, mm) => sum + mm, 0) / Math.max(1, measured.length)
  const designed = words.designed(numberText(bay.body.designThicknessMm))
  return (
    <dl className={classes.facts}>
      <Fact name={words.screed}>
        {[screeds[bay.body.screed], bay.body.designation].filter(Boolean).join(', ')}
      </Fact>
      <Fact name={words.construction}>{constructions[bay.body.construction]}</Fact>
      <Fact name={words.thickness}>
        {measured.length === 0
          ? designed
          : `${designed}, ${words.measured(numberText(mean, 0), numberText(Math.min(...measured)), numberText(Math.max(...measured)))}`}
      </Fact>
      <Fact name={words.covering}>{coverings[ground.body.covering]}</Fact>
      <Fact name={words.limit}>
        {limit === null ? (
          words.noLimit
        ) : (
          <>
            {limitText(limit)}{' '}
            <span className={classes.soft}>
              {words.by(moistureMethods[ground.body.moistureMethod].toLowerCase())}
            </span>
          </>
        )}
      </Fact>
      <Fact name={words.laid}>
        {facts.life.t0 === null
          ? bayWords.notLaid
          : `${nearText(facts.life.t0, now, zone)}, ${bayWords.dayOfLife(Math.floor(facts.life.ageDays ?? 0)).toLowerCase()}`}
      </Fact>
    </dl>
  )
}

function NextActs({ bay }: { bay: string }) {
  const { id, zone } = useJob()
  const now = useNow()
  const { data, error, refetch } = useQuery(orpc.projects.today.queryOptions({ input: { project: id } }))
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  const line = data?.lines.find((one) => one.bay === bay)
  if (line === undefined || line.due.length === 0) return <p>{bayWords.next.none}</p>
  return (
    <ul className={classes.due}>
      {line.due
        .toSorted((a, b) => a.at - b.at)
        .slice(0, 3)
        .map((act) => (
          <li key={`${act.what} ${act.at}`} className={classes.dueLine}>
            <p>
              <strong>{act.what}</strong>, {nearText(act.at, now, zone)}
              {act.overdue && <span className={classes.overdue}> {bayWords.next.overdue}</span>}
              <br />
              <span className={classes.soft}>{act.because}</span>
            </p>
            {act.record !== null && (
              <Button component={Link} href={paths.recordKind(act.record, bay)} variant="default">
                {bayWords.next.write}
              </Button>
            )}
          </li>
        ))}
    </ul>
  )
}

const beforeLaying: KindName[] = [
  'base-surveyed',
  'edge-strip-fitted',
  'batch-mixed',
  'lift-laid',
  'bay-finished',
]

function quickKinds({ life, cover }: BayReading['facts']): readonly KindName[] {
  if (life.t0 === null) return beforeLaying
  const sheet = cover.at(-1)?.until === null ? 'sheet-off' : 'sheet-on'
  return ['air-read', sheet, 'traffic-seen', 'moisture-read', 'defect-found']
}

/** The facts one writes down most about a bay at this age, one touch each. */
function QuickFacts({ bay, kinds: offered }: { bay: string; kinds: readonly KindName[] }) {
  return (
    <nav className={classes.quick} aria-label={words.write}>
      {offered.map((kind) => (
        <Button key={kind} component={Link} href={paths.recordKind(kind, bay)} variant="default">
          {kinds[kind].title}
        </Button>
      ))}
      <Button component={Link} href={paths.importInto(bay)} variant="default">
        {words.read}
      </Button>
      <Button component={Link} href={paths.recordAbout(bay)} variant="subtle">
        {words.more}
      </Button>
    </nav>
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
