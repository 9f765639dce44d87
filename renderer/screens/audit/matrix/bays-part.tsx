import { Button, Select, TextInput } from '@mantine/core'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { AuditLine } from '#model/contract/index.ts'
import { orpc } from '../../../app/client.ts'
import { useNow } from '../../../app/clock.ts'
import { type Job, useJob } from '../../../app/job.tsx'
import { troubleOf } from '../../../app/trouble.ts'
import { words } from '../../../app/words.ts'
import { Banner } from '../../../parts/banner.tsx'
import { Segmented } from '../../../parts/segmented.tsx'
import { dayOnSite, siteIso } from '../../../parts/site-time.ts'
import { Waiting } from '../../../parts/waiting.tsx'
import { Legend } from './legend.tsx'
import classes from './matrix.module.css'
import { Matrix } from './matrix.tsx'

const say = words.audit.matrix
/** Rows that are drawn at first; a thousand bays have sixteen thousand cells. */
const atFirst = 60

/** Bays × requirements: which bays one would be ashamed of if somebody cored them. */
export function BaysPart() {
  const job = useJob()
  const { id, zone, outline } = job
  const [order, setOrder] = useState<'plan' | 'worst'>('plan')
  const [floor, setFloor] = useState('')
  const [day, setDay] = useState('')
  const [shown, setShown] = useState(atFirst)
  const now = useNow()
  const chosen = dayOnSite(day, zone)
  const isFuture = chosen !== null && chosen.from > now
  const since = chosen === null || isFuture ? null : siteIso(chosen.from, zone)
  const { data, error, isPending, refetch } = useQuery({
    ...orpc.audit.sheet.queryOptions({ input: since === null ? { project: id } : { project: id, since } }),
    placeholderData: keepPreviousData,
  })
  const lines = orderedLines(data?.lines ?? [], job, order, floor)
  return (
    <>
      <div className={classes.choose}>
        <Segmented
          label={say.order}
          options={say.orders}
          value={order}
          onChange={(next) => setOrder(next as 'plan' | 'worst')}
        />
        {outline.floors.length > 1 && (
          <Select
            label={say.floor}
            data={[
              { value: '', label: say.allFloors },
              ...outline.floors.map((one) => ({ value: one.id as string, label: one.body.name })),
            ]}
            value={floor}
            onChange={(next) => setFloor(next ?? '')}
          />
        )}
        <TextInput
          type="date"
          label={say.sinceLabel}
          description={say.sinceHelp}
          error={isFuture ? say.future : undefined}
          value={day}
          onChange={(event) => setDay(event.currentTarget.value)}
        />
      </div>
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {isPending && <Waiting />}
      {data !== undefined && (
        <>
          <Legend />
          <Matrix lines={lines.slice(0, shown)} all={lines} compares={since !== null} />
          {lines.length > shown && (
            <Button variant="default" mt="md" onClick={() => setShown(shown + 5 * atFirst)}>
              {say.more(lines.length - shown)}
            </Button>
          )}
        </>
      )}
    </>
  )
}

function orderedLines(
  lines: readonly AuditLine[],
  { outline }: Job,
  order: 'plan' | 'worst',
  floor: string,
): AuditLine[] {
  const kept = lines.filter(({ bay }) => {
    const known = outline.bays.find(({ id }) => id === bay)
    return known !== undefined && (floor === '' || known.floor === floor)
  })
  return order === 'plan' ? kept : kept.toSorted((a, b) => gaps(b) - gaps(a) || share(a) - share(b))
}

/** What is open now weighs more than what waits for its time. */
function gaps({ cells }: AuditLine): number {
  const open = cells.filter(({ notYet, answered }) => !notYet && !answered)
  const count = (state: string) => open.filter((cell) => cell.state === state).length
  return 100 * count('not met') + count('not known')
}

function share({ met, applicable }: AuditLine): number {
  return met / Math.max(1, applicable)
}
