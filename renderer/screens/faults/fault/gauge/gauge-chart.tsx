import { useElementSize, useMergedRef } from '@mantine/hooks'
import { useRef, useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { symptoms } from '#model/record/words.ts'
import { useNow } from '../../../../app/clock.ts'
import { useJob } from '../../../../app/job.tsx'
import { bayWords } from '../../../../app/words/bay.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { AxisRow } from '../../../../charts/axis-row.tsx'
import { ChartTools } from '../../../../charts/chart-tools.tsx'
import { DataTable } from '../../../../charts/data-table.tsx'
import { TimeStrip } from '../../../../charts/time-strip.tsx'
import { timeTicks } from '../../../../charts/time-ticks.ts'
import { valueScale } from '../../../../charts/value-ticks.ts'
import { momentText } from '../../../../parts/site-time.ts'
import classes from '../fault.module.css'
import { gaugeLines, gaugeTable } from './gauge-lines.ts'

const words = faultsWords.gauge
const dayMs = 86_400_000
const gutterPx = 52
const rightPx = 16

/** The width of the crack over time, a line for each place that is gauged; the same numbers as a table. */
export function GaugeChart({ page }: { page: FaultPage }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { ref, width } = useElementSize<HTMLDivElement>()
  const stage = useRef<HTMLDivElement>(null)
  const box = useMergedRef(ref, stage)
  const [asTable, setAsTable] = useState(false)
  const { gauged, fault } = page
  const [main] = fault.symptoms
  const title = words.chartTitle(
    `${nameOf(fault.bay)}, ${main === undefined ? '' : symptoms[main].toLowerCase()}`,
  )
  const table = () => gaugeTable(gauged, title, { moment: (at) => momentText(at, zone, now), person: nameOf })
  const lines = gaugeLines(gauged)
  const first = gauged[0]?.happenedAt ?? now
  const last = gauged.at(-1)?.happenedAt ?? now
  const view = { from: first - dayMs, until: Math.max(last, first + 2 * dayMs) + dayMs }
  const place = { gutter: gutterPx, right: rightPx, width: Math.max(320, width) }
  const ticks = timeTicks(view.from, view.until, zone, Math.max(2, Math.floor(place.width / 110)))
  const scale = valueScale(
    gauged.map(({ body }) => body.widthMm),
    [0],
    4,
  )
  return (
    <div className={classes.chart}>
      <ChartTools
        title={title}
        stage={stage}
        tables={() => [table()]}
        asTable={asTable}
        onAsTable={setAsTable}
      />
      {asTable ? (
        <DataTable table={table()} />
      ) : (
        <div ref={box}>
          <AxisRow view={view} place={place} ticks={ticks} now={now} nowWord={bayWords.axis.now} />
          <TimeStrip
            title={words.width}
            view={view}
            place={place}
            height={210}
            scale={scale}
            ticksAt={ticks.map(({ at }) => at)}
            now={now}
            lines={lines}
          />
        </div>
      )}
    </div>
  )
}
