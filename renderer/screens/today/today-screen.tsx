import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import type { TodaySheet } from '#model/contract/index.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Empty, Page, Section } from '../../parts/page.tsx'
import { momentText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import { AheadList } from './ahead-list.tsx'
import { BayLine } from './bay-line.tsx'
import { CalendarButton } from './calendar-button.tsx'
import { GapList } from './gap-list.tsx'
import { LiveBatches } from './live-batches.tsx'
import { PourList } from './pour-list.tsx'
import classes from './today.module.css'
import { TrafficMap } from './traffic-map.tsx'

const say = words.today

/** The supervisor's page at 07:00 and 15:00: what each bay needs next, what may be poured, who may walk where. */
export default function TodayScreen() {
  const { id, zone, outline } = useJob()
  const now = useNow()
  const { data, error, isPending, refetch } = useQuery({
    ...orpc.projects.today.queryOptions({ input: { project: id } }),
    refetchInterval: 60_000,
  })
  return (
    <Page
      title={say.title}
      lead={say.lead(momentText(now, zone))}
      actions={
        <>
          {outline.bays.length > 0 && <CalendarButton />}
          <Button variant="default" onClick={() => print()}>
            {say.print}
          </Button>
        </>
      }
    >
      {outline.bays.length === 0 && <FirstSteps />}
      {outline.bays.length > 0 && isPending && <Waiting />}
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {outline.bays.length > 0 && data !== undefined && <Sheet sheet={data} />}
    </Page>
  )
}

function Sheet({ sheet }: { sheet: TodaySheet }) {
  const { lines } = sheet
  const needing = lines.filter(({ due, alerts, batches }) => due.length + alerts.length + batches.length > 0)
  const quiet = lines.length - needing.length
  return (
    <>
      <LiveBatches lines={lines} at={Date.parse(sheet.at)} />
      <div className={classes.columns}>
        <div>
          <Section title={say.next}>
            {needing.length === 0 && <p>{say.nothing}</p>}
            <ul className={classes.lines}>
              {needing.map((line) => (
                <BayLine key={line.bay} line={line} />
              ))}
            </ul>
            {quiet > 0 && <p className={classes.quiet}>{say.quiet(quiet)}</p>}
          </Section>
        </div>
        <div className={classes.side}>
          <PourList lines={lines} />
          <TrafficMap lines={lines} />
          <GapList lines={lines} />
          <AheadList ahead={sheet.ahead} />
        </div>
      </div>
    </>
  )
}

function FirstSteps() {
  const { floors, zones } = useJob().outline
  const next = floors.length === 0 ? say.first.floor : zones.length === 0 ? say.first.zone : say.first.bay
  return (
    <Empty
      title={say.first.title}
      action={<ActionLink href={paths.setUpPart('places')}>{say.first.action}</ActionLink>}
    >
      {next}
    </Empty>
  )
}
