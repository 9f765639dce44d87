import type { Content } from 'pdfmake/interfaces.js'
import { lanesOf, timeTicks } from '#model/chart/index.ts'
import { dayMs } from '#model/watch/facts/time.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import { drawingOf } from '../drawing.ts'
import { ink, textWidth } from '../look.ts'
import { drawDrying } from './drying.ts'
import { type Chart, gutter, plotRight, plotWidth, type Span } from './frame.ts'
import { drawLanes, heightOf, lanesIn, laneWords } from './lane-rows.ts'
import { drawAlerts, drawAxis, drawEvaporation, drawHumidity, drawTemperatures } from './strips.ts'

const heights = { axis: 32, alerts: 16, temperature: 108, humidity: 62, evaporation: 62, drying: 118 }
/** Between two strips, for the names of the lines of the lower one [pt]. */
const gap = 16

/** The whole life of a bay; null when nothing has happened to it yet. */
export function lifeSpan({ facts, forecast }: BayFile): Span | null {
  const { life, story, asOf } = facts
  const happened = story.entries
    .filter(
      ({ subject, withdrawn, kind }) => subject === story.bay.id && !withdrawn && kind !== 'bay-planned',
    )
    .map(({ happenedAt }) => happenedAt)
  const begins = life.startedAt ?? life.t0 ?? (happened.length === 0 ? null : Math.min(...happened))
  if (begins === null) return null
  const from = Math.min(begins, ...happened.filter((at) => at > begins - 3 * dayMs)) - dayMs / 2
  const ready = forecast?.p90 ?? forecast?.p50 ?? null
  const end = Math.max(asOf, life.coveredAt ?? 0, ready === null ? 0 : Date.parse(ready) + 4 * dayMs)
  return { from, until: end + Math.max(dayMs / 2, 0.015 * (end - from)) }
}

/** The week that decides about strength; null before the laying. */
export function firstWeek({ facts: { life } }: BayFile): Span | null {
  const begins = life.startedAt ?? life.t0
  return begins === null ? null : { from: begins - dayMs / 2, until: (life.t0 ?? begins) + 7.5 * dayMs }
}

/**
 * One axis of time for everything that went on with a bay: air, screed and outside with the temperatures that matter,
 * humidity, evaporation where it is asked for, lanes for curing, heating, traffic and tests, and the drying with readings,
 * limit and the estimate. A tone says nothing that a word does not say too.
 */
export function lifeChart(
  bay: BayFile,
  span: Span,
  show: { evaporation: boolean; drying: boolean },
): Content {
  const { facts } = bay
  const lanes = lanesIn(lanesOf(facts, laneWords), span)
  const hasAlerts = bay.alerts.some(({ since }) => since >= span.from && since <= span.until)
  const below = [
    { height: heights.temperature, draw: drawTemperatures },
    { height: heights.humidity, draw: drawHumidity },
    ...(show.evaporation ? [{ height: heights.evaporation, draw: drawEvaporation }] : []),
  ]
  const top = heights.axis + (hasAlerts ? heights.alerts : 0)
  const strips = below.reduce((sum, { height }) => sum + height + gap, 0)
  const height = top + strips + heightOf(lanes) + (show.drying ? gap + heights.drying : 0) + 3
  const drawing = drawingOf(textWidth, height)
  const x = (at: number) => gutter + ((at - span.from) / (span.until - span.from)) * plotWidth
  const asOf = x(facts.asOf)
  const crosses = facts.asOf > span.from && facts.asOf < span.until
  const wordsEnd = crosses && asOf > plotRight - 90 ? asOf - 3 : plotRight - 3
  const chart: Chart = { bay, drawing, span, x, wordsEnd }

  drawAxis(chart, timeTicks(span.from, span.until, facts.story.timeZone, 8), height)
  if (crosses) {
    const ends = [
      { x: asOf, y: 14 },
      { x: asOf, y: height },
    ]
    drawing.stroke(ends, { line: ink.text, width: 0.7, dash: 2 })
    drawing.label(asOf - 2, 24, 'as of', { size: 6.4, anchor: 'end' })
  }
  if (hasAlerts) drawAlerts(chart, heights.axis - 12)
  let y = top
  for (const strip of below) {
    strip.draw(chart, y, strip.height)
    y += strip.height + gap
  }
  y -= gap - 6
  drawLanes(chart, lanes, y)
  if (show.drying) drawDrying(chart, y + heightOf(lanes) + gap - 4, heights.drying)
  return drawing.content()
}
