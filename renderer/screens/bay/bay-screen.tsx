import { useQuery } from '@tanstack/react-query'
import { useMemo, useState } from 'react'
import { useParams } from 'wouter'
import type { BayLife } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { orpc } from '../../app/client.ts'
import { nowMs } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { NotHere } from '../../app/not-here.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { bayWords } from '../../app/words/bay.ts'
import { photosWords } from '../../app/words/photos.ts'
import { waysWords } from '../../app/words/ways.ts'
import { Banner } from '../../parts/banner.tsx'
import { Page, Section } from '../../parts/page.tsx'
import { PhotoGrid } from '../../parts/photos/photo-grid.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './bay.module.css'
import { BayHead } from './bay-head.tsx'
import { readBay, scalesOf } from './bay-reading.ts'
import { ForecastCard } from './forecast-card.tsx'
import { HoldPointsPanel } from './hold-points-panel.tsx'
import { LifeAxis } from './life-axis/life-axis.tsx'
import { spansOf } from './life-axis/span.ts'
import { type Chosen, SidePanel } from './side-panel.tsx'
import { useForecast } from './use-forecast.ts'

/** The life of one bay: what it is, what comes next, and everything that happened to it on one axis of time. */
export default function BayScreen() {
  const { bay } = useParams<{ bay: string }>()
  const { outline } = useJob()
  const known = outline.bays.find(({ id }) => id === bay)
  if (known === undefined) return <NotHere />
  return <OneBay key={known.id} bay={known.id} />
}

function OneBay({ bay }: { bay: BayId }) {
  const { data, error, refetch } = useQuery(orpc.bays.life.queryOptions({ input: { bay } }))
  if (data === undefined) {
    return error === null ? <Waiting /> : <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  }
  return <BayPage bay={bay} life={data} />
}

function BayPage({ bay, life }: { bay: BayId; life: BayLife }) {
  const { nameOf } = useJob()
  const [chosen, setChosen] = useState<Chosen | null>(null)
  const read = useMemo(() => readBay(life, nowMs()), [life])
  const laid = read.facts.life.t0 !== null
  const work = useForecast(bay, undefined, laid ? versionOf(life) : null)
  const forecast = work.last !== null && work.last.missing.length === 0 ? work.last : null
  const reading = useMemo(
    () => ({ ...read, forecast, scales: laid ? scalesOf(read, forecast) : [] }),
    [read, forecast, laid],
  )
  const spans = useMemo(() => spansOf(read.facts, forecast), [read, forecast])
  const { floor, zone } = life.story
  return (
    <Page
      title={nameOf(bay)}
      lead={`${floor.body.name}, ${zone.body.name}`}
      actions={
        <>
          <ActionLink href={paths.ready(bay)} quiet>
            {bayWords.head.ready}
          </ActionLink>
          <ActionLink href={paths.floor(floor.id)} quiet>
            {bayWords.head.plan}
          </ActionLink>
        </>
      }
    >
      <BayHead
        state={life.state}
        reading={read}
        onAlert={(alert) => setChosen({ kind: 'alerts', alerts: [alert.id] })}
      />
      <Section title={bayWords.axis.title}>
        {spans === null ? (
          <p>{bayWords.axis.none}</p>
        ) : (
          <div className={`${classes.life} ${chosen === null ? '' : classes.lifeOpen}`}>
            <LifeAxis
              bayName={nameOf(bay)}
              reading={reading}
              spans={spans}
              chosen={
                chosen === null ? null : chosen.kind === 'entry' ? chosen.entry : (chosen.alerts[0] ?? null)
              }
              onEntry={(entry) => setChosen({ kind: 'entry', entry })}
              onAlerts={(alerts) => setChosen({ kind: 'alerts', alerts: alerts.map(({ id }) => id) })}
            />
            {chosen !== null && (
              <SidePanel
                bay={bay}
                chosen={chosen}
                reading={reading}
                onEntry={(entry) => setChosen({ kind: 'entry', entry })}
                onClose={() => setChosen(null)}
              />
            )}
          </div>
        )}
      </Section>
      <HoldPointsPanel bay={bay} facts={read.facts} />
      {laid && (
        <Section
          title={bayWords.forecast.title}
          aside={
            <ActionLink href={paths.ways(bay)} quiet>
              {waysWords.fromBay}
            </ActionLink>
          }
        >
          <ForecastCard work={work} tests={read.tests} />
        </Section>
      )}
      <Section title={photosWords.title}>
        <PhotoGrid subject={bay} />
      </Section>
    </Page>
  )
}

/** Changes whenever something was written down that the estimate rests on. */
function versionOf({ story }: BayLife): string {
  const last = Math.max(0, ...story.entries.flatMap(({ versions }) => versions.map(({ seq }) => seq)))
  return `${last} ${story.entries.length}`
}
