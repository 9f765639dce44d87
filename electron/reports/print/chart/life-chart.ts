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
/** A strip lower than this share of its height is hard to read; a chart higher than its room goes to the next page. */
const leastScale = 0.6

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
 * @param mostHeight strips become lower, within reason, to keep within it [pt]
 */
export function lifeChart(
  bay: BayFile,
  span: Span,
  show: { evaporation: boolean; drying: boolean },
  mostHeight = Number.POSITIVE_INFINITY,
): Content {
  const { facts } = bay
  const lanes = lanesIn(lanesOf(facts, laneWords), span)
  const hasAlerts = bay.alerts.some(({ since }) => since >= span.from && since <= span.until)
  const strips = [
    { full: heights.temperature, draw: drawTemperatures },
    { full: heights.humidity, draw: drawHumidity },
    ...(show.evaporation ? [{ full: heights.evaporation, draw: drawEvaporation }] : []),
    ...(show.drying ? [{ full: heights.drying, draw: drawDrying }] : []),
  ]
  const top = heights.axis + (hasAlerts ? heights.alerts : 0)
  const fixed = top + strips.length * gap + heightOf(lanes) + 3
  const full = strips.reduce((sum, strip) => sum + strip.full, 0)
  const scale = Math.min(1, Math.max(leastScale, (mostHeight - fixed) / full))
  const height = fixed + scale * full
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
  for (const { draw, full: unscaled } of strips) {
    // The lanes stand above the drying, and last where there is none.
    if (draw === drawDrying) {
      drawLanes(chart, lanes, y - gap + 6)
      y += heightOf(lanes) + 2
    }
    draw(chart, y, scale * unscaled)
    y += scale * unscaled + gap
  }
  if (!show.drying) drawLanes(chart, lanes, y - gap + 6)
  return drawing.content()
}
