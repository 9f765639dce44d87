import { useElementSize } from '@mantine/hooks'
import { useMemo, useRef, useState } from 'react'
import type { Alert } from '#model/watch/alert.ts'
import { severities } from '#model/watch/alert.ts'
import { useNow } from '../../../app/clock.ts'
import { useJob } from '../../../app/job.tsx'
import { bayWords } from '../../../app/words/bay.ts'
import { AxisRow } from '../../../charts/axis-row.tsx'
import { ChartTools } from '../../../charts/chart-tools.tsx'
import { DataTable } from '../../../charts/data-table.tsx'
import { Stage } from '../../../charts/stage.tsx'
import { timeTicks } from '../../../charts/time-ticks.ts'
import { momentText, siteIso } from '../../../parts/site-time.ts'
import type { BayReading } from '../bay-reading.ts'
import { AlertRow } from './alert-row.tsx'
import { DryingStrip, isHumidity } from './drying-strip.tsx'
import { LaneRows } from './lane-rows.tsx'
import type { LaneItem } from './lanes.ts'
import classes from './life-axis.module.css'
import { Readout } from './readout.tsx'
import type { Spans } from './span.ts'
import { dailyTable, dryingTable, happeningsTable, readingsTable, testsTable } from './tables.ts'
import { HumidityStrip, TemperatureStrip } from './temperature-strip.tsx'
import { useLifeView } from './use-life-view.ts'
import { ViewBrush, ViewButtons } from './view-controls.tsx'

const words = bayWords.axis

interface LifeAxisProps {
  bayName: string
  reading: BayReading
  spans: Spans
  chosen: string | null
  onEntry: (entry: string) => void
  onAlerts: (alerts: readonly Alert[]) => void
}

const dayMs = 86_400_000
const tickPx = 104

/** The life of a bay on one axis of time. */
export function LifeAxis({ bayName, reading, spans, chosen, onEntry, onAlerts }: LifeAxisProps) {
  const { facts, lanes, readings, scales, forecast, alerts, tests } = reading
  const { zone } = useJob()
  const now = useNow()
  const life = useLifeView(spans)
  const [cursor, setCursor] = useState<number | null>(null)
  const [asTable, setAsTable] = useState(false)
  const { ref, width } = useElementSize()
  const stage = useRef<HTMLDivElement>(null)
  const { view } = life
  const place = { gutter: 92, right: 14, width: Math.max(320, Math.floor(width)) }
  const plotPx = place.width - place.gutter - place.right
  const ticks = useMemo(
    () => timeTicks(view.from, view.until, zone, Math.floor(plotPx / tickPx)),
    [view.from, view.until, zone, plotPx],
  )
  const ticksAt = ticks.map(({ at }) => at)
  const { t0 } = facts.life
  const dayOf = (at: number) => (t0 === null || at < t0 ? null : words.day(Math.floor((at - t0) / dayMs)))
  const shared = { view, place, ticksAt, now }

  const wordsOf = ({ label, from, until }: LaneItem) =>
    `${label}, ${momentText(from, zone)}${until === null ? `, ${bayWords.table.open}` : until === from ? '' : ` – ${momentText(until, zone)}`}`
  const title = words.csvTitle(bayName)
  const iso = (at: number) => siteIso(at, zone)
  const said = (at: number) => momentText(at, zone, now)
  const saved = () => [
    happeningsTable(title, lanes, iso),
    readingsTable(words.seriesTitle(bayName), readings, iso),
    ...(tests.length === 0 ? [] : [testsTable(`${bayName}, ${bayWords.table.tests}`, tests, iso)]),
    ...(forecast === null ? [] : [dryingTable(`${bayName}, ${bayWords.table.dryingTitle}`, forecast, zone)]),
  ]
  return (
    <div>
      <div className={classes.head}>
        <ViewButtons spans={spans} life={life} />
        <ChartTools title={title} stage={stage} tables={saved} asTable={asTable} onAsTable={setAsTable} />
      </div>
      {asTable ? (
        <div className={classes.tables}>
          <DataTable table={happeningsTable(bayWords.table.happenings, lanes, said)} />
          <DataTable table={dailyTable(bayWords.table.thinned, readings, zone)} />
          <DataTable table={testsTable(bayWords.table.tests, tests, said)} />
          {forecast !== null && <DataTable table={dryingTable(bayWords.table.dryingTitle, forecast, zone)} />}
        </div>
      ) : (
        <div ref={ref}>
          <Readout
            cursor={cursor}
            view={view}
            readings={readings}
            forecast={forecast}
            zone={zone}
            t0={t0}
            onCursor={setCursor}
          />
          {width > 0 && (
            <>
              <Stage
                ref={stage}
                view={view}
                place={place}
                cursor={cursor}
                onCursor={setCursor}
                onStretch={life.show}
              >
                <AxisRow {...shared} ticks={ticks} nowWord={words.now} below={dayOf} />
                <AlertRow
                  alerts={alerts}
                  view={view}
                  place={place}
                  chosen={chosen}
                  wordsOf={(alert) =>
                    `${severities[alert.severity]}: ${alert.title}, ${momentText(alert.since, zone)}`
                  }
                  onChoose={onAlerts}
                />
                <TemperatureStrip {...shared} facts={facts} readings={readings} />
                <HumidityStrip {...shared} readings={readings} />
                <LaneRows {...shared} lanes={lanes} chosen={chosen} wordsOf={wordsOf} onChoose={onEntry} />
                {scales.map((scale) => (
                  <DryingStrip
                    key={scale.unit}
                    {...shared}
                    scale={scale}
                    forecast={isHumidity(scale.unit) ? forecast : null}
                    zone={zone}
                    chosen={chosen}
                    onChoose={onEntry}
                  />
                ))}
              </Stage>
              <ViewBrush spans={spans} life={life} place={place} zone={zone} />
            </>
          )}
        </div>
      )}
    </div>
  )
}
