import { Button, Progress } from '@mantine/core'
import { useState } from 'react'
import type { WayId, WaysFound } from '#model/drying/what-if/shapes.ts'
import type { Covering } from '#model/record/words.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { useLastWritten } from '../../app/last-written.ts'
import { troubleOf } from '../../app/trouble.ts'
import { waysWords as words } from '../../app/words/ways.ts'
import { saveCsv } from '../../charts/save.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { numberText } from '../../parts/number-text.ts'
import { Section } from '../../parts/page.tsx'
import { saidOnSite } from '../../parts/site-time.ts'
import { BaysPart, WithoutPart } from './bays-part.tsx'
import { CautionsPart } from './cautions-part.tsx'
import { NoteWay, plannableWays } from './note-way.tsx'
import type { PlanDraft, PlanReading } from './plan-draft.ts'
import { PlanForm } from './plan-form.tsx'
import { type Clock, columnsOf, isWorkedOut, likelyCell, rowsOf, type WayColumn } from './rows.ts'
import { tabbed, tableOfWays } from './table-of-ways.ts'
import { useWays, type WaysWork } from './use-ways.ts'
import classes from './ways.module.css'
import { WaysRanges } from './ways-ranges.tsx'
import { WaysTable } from './ways-table.tsx'
import type { Place } from './where.ts'

interface WaysSheetProps {
  place: Place
  name: string
  covering: Covering | null
  draft: PlanDraft
  reading: PlanReading
  onDraft: (draft: PlanDraft) => void
}

/** The room as typed above, what was found below it; both stay while the next answer is worked out. */
export function WaysSheet({ place, name, covering, draft, reading, onDraft }: WaysSheetProps) {
  const last = useLastWritten()
  const ways = draft.ways.filter((way) => place.heated || way !== 'floor heating')
  const question =
    reading.plan === null
      ? null
      : {
          bays: place.bays,
          covering,
          ways: ['wait' as const, ...ways.filter((way) => way !== 'wait')],
          plan: reading.plan,
        }
  const work = useWays(question, last?.id ?? '')
  return (
    <>
      <PlanForm draft={draft} reading={reading} heated={place.heated} onDraft={onDraft}>
        <RoomFactsLine found={work.last} />
        <p className={classes.printed}>{words.outdoor.typed(draft.typed.heightM, draft.typed.airChanges)}</p>
      </PlanForm>
      <Work work={work} isWrong={reading.plan === null} />
      {work.last !== null && <Found found={work.last} place={place} name={name} reading={reading} />}
    </>
  )
}

function RoomFactsLine({ found }: { found: WaysFound | null }) {
  if (found === null || found.room === null) return null
  const { now, outdoor, shutAirChangesPerH } = found.room
  const number = (value: number, decimals = 0) => numberText(value, decimals)
  return (
    <>
      {outdoor === null && <Note tone="act">{words.outdoor.none}</Note>}
      <p className={classes.facts}>
        {words.outdoor.now(number(now.airC, 1), number(now.rhPercent))}{' '}
        {outdoor !== null &&
          words.outdoor.known(
            number(outdoor.value.airC, 1),
            number(outdoor.value.rhPercent),
            outdoor.because,
          )}{' '}
        {outdoor !== null &&
          words.outdoor.shut(number(shutAirChangesPerH.value, 2), shutAirChangesPerH.because)}
      </p>
    </>
  )
}

function Work({ work: { state, again, stop }, isWrong }: { work: WaysWork; isWrong: boolean }) {
  if (isWrong) return <Note tone="act">{words.form.notThis}</Note>
  switch (state.kind) {
    case 'running': {
      const percent = state.of === 0 ? 0 : Math.floor((100 * state.done) / state.of)
      return (
        <div className={classes.working} role="status">
          <div>
            <p>{words.working(percent)}</p>
            <Progress value={percent} aria-label={words.title} />
          </div>
          <Button variant="default" onClick={stop}>
            {words.stop}
          </Button>
        </div>
      )
    }
    case 'stopped':
      return (
        <div className={classes.working}>
          <p>{words.stopped}</p>
          <Button variant="default" onClick={again}>
            {words.again}
          </Button>
        </div>
      )
    case 'failed':
      return <Banner trouble={troubleOf(state.error)} onRetry={again} />
    default:
      return null
  }
}

interface FoundProps {
  found: WaysFound
  place: Place
  name: string
  reading: PlanReading
}

function Found({ found, place, name, reading }: FoundProps) {
  const { outline, zone } = useJob()
  const clock = { zone, now: useNow() }
  const [planning, setPlanning] = useState<WayId | null>(null)
  const columns = columnsOf(found, reading)
  const worked = columns.filter(isWorkedOut)
  const rows = rowsOf(columns, clock, outline.project.body.currency)
  const chosen = worked.find((column) => column.found.way === planning)
  return (
    <>
      {worked.length > 0 && (
        <>
          <Section title={words.ranges.title}>
            <WaysRanges columns={worked} clock={clock} />
          </Section>
          <Section title={words.table.title} aside={<CopyButtons table={tableOfWays(name, columns, rows)} />}>
            <WaysTable columns={columns} rows={rows} plannable={plannableWays} onPlan={setPlanning} />
          </Section>
        </>
      )}
      {chosen !== undefined && (
        <NoteWay
          key={chosen.found.way}
          way={chosen.found.way}
          bays={place.bays}
          text={noteText(chosen, clock)}
          onDone={() => setPlanning(null)}
        />
      )}
      <CautionsPart columns={worked} />
      <BaysPart columns={worked} clock={clock} />
      <WithoutPart without={found.without} />
      {worked.length > 0 && (
        <Section title={words.assumptions.title}>
          <ul className={classes.list}>
            {[
              words.assumptions.room,
              words.assumptions.heat,
              words.assumptions.others,
              ...found.assumptions,
            ].map((line) => (
              <li key={line}>{saidOnSite(line, clock.zone)}</li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}

function noteText({ found }: WayColumn, clock: Clock): string {
  const dates = likelyCell(found, clock)
  return words.note.body({
    way: words.names[found.way],
    room: `${numberText(found.room.airC, 0)} °C, ${numberText(found.room.rhPercent, 0)} % RH`,
    dates: `${words.table.likely.toLowerCase()} ${dates.main}`,
    water: `${numberText(found.water.firstDayKg, 1)} kg of water on the first day, ${numberText(found.water.meanKgPerDay, 1)} kg a day on average`,
  })
}

function CopyButtons({ table }: { table: ReturnType<typeof tableOfWays> }) {
  const [said, setSaid] = useState<string | null>(null)
  const copy = () =>
    void navigator.clipboard.writeText(tabbed(table)).then(
      () => setSaid(words.copied),
      // Where the clipboard is not given to pages, the file can still be saved.
      () => setSaid(words.copyFailed),
    )
  return (
    <div className={classes.buttons}>
      <span role="status" className={classes.soft}>
        {said}
      </span>
      <Button variant="default" onClick={copy}>
        {words.copy}
      </Button>
      <Button variant="default" onClick={() => saveCsv(table)}>
        {words.csv}
      </Button>
    </div>
  )
}
