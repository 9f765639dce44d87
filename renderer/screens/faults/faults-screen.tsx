import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { FaultLine } from '#model/contract/faults.ts'
import { causes } from '#model/faults/causes.ts'
import { symptoms } from '#model/record/words.ts'
import { orpc } from '../../app/client.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { faultsWords } from '../../app/words/faults.ts'
import { Banner } from '../../parts/banner.tsx'
import { numberText } from '../../parts/number-text.ts'
import { Empty, Page, Section } from '../../parts/page.tsx'
import { agoText, calendarDayText } from '../../parts/site-time.ts'
import { Waiting } from '../../parts/waiting.tsx'
import { FaultStateMark, MovementMark } from './fault-marks.tsx'
import classes from './faults.module.css'
import { SymptomDrawing } from './symptoms/symptom-drawing.tsx'

const words = faultsWords.list

/** Every fault of the project: what, where, since when, how far it has come. */
export default function FaultsScreen() {
  const { id: project, outline } = useJob()
  const { data, error, refetch } = useQuery(orpc.faults.list.queryOptions({ input: { project } }))
  const report = <ActionLink href={paths.reportFault}>{words.report}</ActionLink>
  if (outline.bays.length === 0) {
    return (
      <Page title={faultsWords.title}>
        <Empty title={words.noBays} action={<ActionLink href={paths.floors}>{words.toFloors}</ActionLink>}>
          {words.noBaysLead}
        </Empty>
      </Page>
    )
  }
  const open = data?.faults.filter(({ state }) => state !== 'closed') ?? []
  const closed = data?.faults.filter(({ state }) => state === 'closed') ?? []
  return (
    <Page title={faultsWords.title} lead={faultsWords.lead} actions={report}>
      {error !== null && <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />}
      {data === undefined && error === null && <Waiting />}
      {data?.faults.length === 0 && <Empty title={words.none}>{words.noneLead}</Empty>}
      {open.length > 0 && <FaultTable faults={open} caption={words.open(open.length)} />}
      {closed.length > 0 && (
        <Section title={words.closed(closed.length)}>
          <FaultTable faults={closed} caption={words.closed(closed.length)} hideCaption />
        </Section>
      )}
    </Page>
  )
}

interface FaultTableProps {
  faults: readonly FaultLine[]
  caption: string
  hideCaption?: boolean
}

function FaultTable({ faults, caption, hideCaption = false }: FaultTableProps) {
  const { columns } = words
  return (
    <table className={classes.list}>
      <caption className={hideCaption ? classes.hidden : classes.caption}>{caption}</caption>
      <thead>
        <tr>
          <th scope="col" colSpan={2}>
            {columns.what}
          </th>
          <th scope="col">{columns.where}</th>
          <th scope="col">{columns.since}</th>
          <th scope="col">{columns.moves}</th>
          <th scope="col">{columns.state}</th>
        </tr>
      </thead>
      <tbody>
        {faults.map((fault) => (
          <Line key={fault.id} fault={fault} />
        ))}
      </tbody>
    </table>
  )
}

function Line({ fault }: { fault: FaultLine }) {
  const { nameOf, outline } = useJob()
  const now = useNow()
  const bay = outline.bays.find(({ id }) => id === fault.bay)
  const [main, ...further] = fault.symptoms
  return (
    <tr>
      <td className={classes.picture}>
        {main !== undefined && <SymptomDrawing symptom={main} bare small />}
      </td>
      <th scope="row" className={classes.what}>
        <Link href={paths.fault(fault.id)} className={classes.name}>
          {main === undefined ? faultsWords.title : symptoms[main]}
        </Link>
        {further.length > 0 && (
          <span className={classes.soft}>
            {faultsWords.page.also}: {further.map((code) => symptoms[code].toLowerCase()).join(', ')}
          </span>
        )}
        <span className={classes.soft}>{sizeText(fault)}</span>
      </th>
      <td>
        {nameOf(fault.bay)}
        <span className={classes.soft}>{bay !== undefined && nameOf(bay.body.zone)}</span>
      </td>
      <td>
        {calendarDayText(fault.firstSeenOn)}
        <span className={classes.soft}>{agoText(Date.parse(`${fault.firstSeenOn}T12:00:00Z`), now)}</span>
      </td>
      <td>{fault.movement === null ? '–' : <MovementMark verdict={fault.movement} />}</td>
      <td>
        <FaultStateMark state={fault.state} />
        <span className={classes.soft}>
          {fault.cause === null || fault.cause === 'unknown' ? '' : causes[fault.cause]}
        </span>
      </td>
    </tr>
  )
}

/** "14 m², 0.4 mm wide": what is known of its size. */
export function sizeText({ lengthM, areaM2, widthMm }: FaultLine): string {
  const { length, area } = faultsWords.place
  return [
    lengthM === null ? null : length(numberText(lengthM)),
    areaM2 === null ? null : area(numberText(areaM2)),
    widthMm === null ? null : faultsWords.page.wide(numberText(widthMm)),
  ]
    .filter((part) => part !== null)
    .join(', ')
}
