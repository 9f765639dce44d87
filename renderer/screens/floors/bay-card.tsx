import { Button, CloseButton } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { areaOf } from '#model/movement/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import { coverings, screeds } from '#model/record/words.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { floorsWords as words } from '../../app/words/floors.ts'
import { AlertCard } from '../../parts/alert-card.tsx'
import { Banner } from '../../parts/banner.tsx'
import { numberText } from '../../parts/number-text.ts'
import { agoText, nearText } from '../../parts/site-time.ts'
import { StateMark } from '../../parts/state-mark.tsx'
import { factsOf } from './floor-facts.ts'
import classes from './floors.module.css'
import { openAlertsOf } from './plan/alert-pins.tsx'
import type { PlanBay } from './plan/bay-shapes.tsx'

interface BayCardProps {
  bay: PlanBay
  facts: readonly StoryEntry[]
  onEdit: () => void
  onClose: () => void
}

/** The bay that was picked on the plan: its state and why, what comes next, what is open, where to go from here. */
export function BayCard({ bay, facts, onEdit, onClose }: BayCardProps) {
  const { outline, nameOf, zone } = useJob()
  const now = useNow()
  const { body, state } = bay
  const covering = outline.zones.find(({ id }) => id === body.zone)?.body.covering
  const batches = factsOf(facts, 'batch-mixed', new Set([bay.id])).length
  return (
    <section className={classes.card} aria-labelledby="bay-card">
      <header className={classes.cardHead}>
        <div>
          <h2 id="bay-card" className={classes.cardTitle}>
            {nameOf(bay.id)}
          </h2>
          <p className={classes.soft}>{nameOf(body.zone)}</p>
        </div>
        <CloseButton size="xl" aria-label={words.card.close} onClick={onClose} />
      </header>
      <div className={classes.state}>
        <StateMark state={state.word} size={26} />
        <p>{state.because}</p>
      </div>
      <NextAct bay={bay} now={now} />
      <dl className={classes.facts}>
        <Fact
          name={words.card.laid}
          value={
            state.laidAt === null
              ? words.card.notLaid
              : `${nearText(Date.parse(state.laidAt), now, zone)}, ${agoText(Date.parse(state.laidAt), now)}`
          }
        />
        <Fact name={words.card.screed} value={screeds[body.screed]} />
        <Fact name={words.card.thickness} value={`${numberText(body.designThicknessMm)} mm`} />
        <Fact name={words.card.area} value={`${numberText(areaOf(body.outline))} m²`} />
        {covering !== undefined && <Fact name={words.card.covering} value={coverings[covering]} />}
        {batches > 0 && <Fact name={words.card.batches} value={String(batches)} />}
      </dl>
      <div className={classes.acts}>
        <Button component={Link} href={paths.bay(bay.id)}>
          {words.card.openLife}
        </Button>
        <Button component={Link} href={paths.ready(bay.id)} variant="default">
          {words.card.openReady}
        </Button>
        <Button component={Link} href={paths.recordAbout(bay.id)} variant="default">
          {words.card.write}
        </Button>
        <Button variant="subtle" onClick={onEdit}>
          {words.card.edit}
        </Button>
      </div>
    </section>
  )
}

function NextAct({ bay, now }: { bay: PlanBay; now: number }) {
  const { id, zone } = useJob()
  const { data, error, refetch } = useQuery(orpc.projects.today.queryOptions({ input: { project: id } }))
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  const line = data?.lines.find((one) => one.bay === bay.id)
  const due = line?.due.toSorted((a, b) => a.at - b.at)[0]
  const alerts = openAlertsOf(line)
  return (
    <>
      <div>
        <h3 className={classes.small}>{words.card.next}</h3>
        {due === undefined ? (
          <p>{words.card.nothingNext}</p>
        ) : (
          <p>
            <strong>{due.what}</strong>, {nearText(due.at, now, zone)}
            {due.overdue && <span className={classes.overdue}> {words.card.overdue}</span>}
            <br />
            <span className={classes.soft}>{due.because}</span>
          </p>
        )}
      </div>
      <div>
        <h3 className={classes.small}>{words.card.alerts(bay.state.openAlerts)}</h3>
        {alerts.map((alert) => (
          <AlertCard key={alert.id} alert={alert} bay={bay.id} />
        ))}
      </div>
    </>
  )
}

function Fact({ name, value }: { name: string; value: string }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  )
}
