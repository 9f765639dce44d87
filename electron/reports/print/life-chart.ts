import type { Content } from 'pdfmake/interfaces.js'
import {
  gapOf,
  type Lane,
  type LaneItem,
  type LaneWords,
  lanesOf,
  thinned,
  timeTicks,
  type ValueScale,
  valueScale,
} from '#model/chart/index.ts'
import { moistureUnit } from '#model/checks/index.ts'
import { limitText } from '#model/rules/index.ts'
import type { Limit } from '#model/rules/limit.ts'
import { airTrace } from '#model/watch/facts/air.ts'
import type { Trace } from '#model/watch/facts/trace.ts'
import { rankOf } from '#model/watch/index.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { dayText, numberText, shortened } from '../site-text.ts'
import { type Drawing, drawingOf, type Place } from './drawing.ts'
import { ink, textWidth } from './look.ts'

export interface Span {
  from: number
  until: number
}

const gutter = 62
const plotRight = textWidth - 4
const plotWidth = plotRight - gutter
const dayMs = 86_400_000
const hourMs = 3_600_000
const laneHeight = 11
const heights = { axis: 26, alerts: 13, temperature: 104, humidity: 62, evaporation: 62, drying: 112 }
const gap = 13

const laneTitles: Record<Lane['name'], string> = {
  laying: 'Laying',
  sheets: 'Curing',
  protection: 'Protection',
  traffic: 'Traffic',
  heating: 'Heating',
  wetting: 'Wetting',
  tests: 'Tests',
  defects: 'Defects',
  decisions: 'Decisions',
}
const laneWords: LaneWords = {
  lift: (number, mm) => `Lift ${number}, ${mm} mm`,
  batch: (number) => `${number}`,
  finish: 'Finished',
  covered: 'Whole sheet',
  partly: (percent) => `Sheet over ${percent} %`,
  noTraffic: 'No traffic',
  heatingOff: 'Off',
  heatingOn: (flow) => `${flow} °C`,
  heatingRun: 'Running',
  surveyed: 'Base',
  planned: 'planned',
}
const barInk: Partial<Record<Lane['name'], string>> = {
  sheets: ink.accent,
  heating: ink.act,
  traffic: ink.stop,
  defects: ink.stop,
}

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
  const inside = ({ from, until }: LaneItem) =>
    from <= span.until && (until ?? Number.POSITIVE_INFINITY) >= span.from
  const lanes = lanesOf(facts, laneWords)
    .map(({ name, rows }) => ({
      name,
      rows: rows.map((row) => row.filter(inside)).filter((row) => row.length > 0),
    }))
    .filter(({ rows }) => rows.length > 0)
  const alerts = bay.alerts.filter(({ since }) => since >= span.from && since <= span.until)
  const lanesHeight = lanes.reduce((sum, { rows }) => sum + rows.length * laneHeight + 3, 0)
  const height =
    heights.axis +
    (alerts.length > 0 ? heights.alerts : 0) +
    heights.temperature +
    gap +
    heights.humidity +
    gap +
    (show.evaporation ? heights.evaporation + gap : 0) +
    lanesHeight +
    (show.drying ? heights.drying + gap : 0) +
    4
  const drawing = drawingOf(textWidth, height)
  const x = (at: number) => gutter + ((at - span.from) / (span.until - span.from)) * plotWidth
  const ticks = timeTicks(span.from, span.until, facts.story.timeZone, 8)
  const chart: Chart = { bay, drawing, span, x, ticksAt: ticks.map(({ at }) => at) }

  let y = 0
  axis(chart, ticks, height)
  y += heights.axis
  if (alerts.length > 0) {
    alertRow(chart, alerts, y)
    y += heights.alerts
  }
  temperatures(chart, y)
  y += heights.temperature + gap
  humidity(chart, y)
  y += heights.humidity + gap
  if (show.evaporation) {
    evaporation(chart, y)
    y += heights.evaporation + gap
  }
  y = drawLanes(chart, lanes, y)
  if (show.drying) drying(chart, y + gap)
  if (facts.asOf > span.from && facts.asOf < span.until) {
    const now = x(facts.asOf)
    drawing.stroke(
      [
        { x: now, y: 20 },
        { x: now, y: height },
      ],
      { line: ink.text, width: 0.7, dash: 2 },
    )
    drawing.label(now + 2, 25, 'as of', { size: 6.4 })
  }
  return drawing.content()
}

interface Chart {
  bay: BayFile
  drawing: Drawing
  span: Span
  x: (at: number) => number
  ticksAt: number[]
}

function axis({ drawing, x, bay }: Chart, ticks: { at: number; label: string }[], height: number): void {
  const { t0 } = bay.facts.life
  for (const { at, label } of ticks) {
    drawing.stroke(
      [
        { x: x(at), y: 20 },
        { x: x(at), y: height },
      ],
      { line: ink.line, width: 0.4 },
    )
    if (x(at) > plotRight - 24) continue
    drawing.label(x(at) + 1, 9, label, { size: 7, colour: ink.text })
    if (t0 !== null && at >= t0)
      drawing.label(x(at) + 1, 17, `day ${Math.floor((at - t0) / dayMs)}`, { size: 6.2 })
  }
}

function alertRow({ drawing, x }: Chart, alerts: BayFile['alerts'], y: number): void {
  drawing.label(0, y + 8, 'Alerts', { size: 7.4, colour: ink.text })
  let free = Number.NEGATIVE_INFINITY
  for (const alert of alerts.toSorted(
    (a, b) => a.since - b.since || rankOf(a.severity) - rankOf(b.severity),
  )) {
    const at = x(alert.since)
    const colour = alert.severity === 'stop' ? ink.stop : alert.severity === 'act' ? ink.act : ink.unproven
    drawing.shape(
      [
        { x: at, y: y + 3 },
        { x: at + 3.4, y: y + 9 },
        { x: at - 3.4, y: y + 9 },
      ],
      { fill: colour },
    )
    const words = shortened(alert.title, 30)
    if (at < free || at + 4 + words.length * 3.1 > plotRight) continue
    drawing.label(at + 5, y + 8.6, words, { size: 6.2, colour })
    free = at + 8 + words.length * 3.1
  }
}

interface Frame {
  y: number
  height: number
  scale: ValueScale
  place: (at: number, value: number) => Place
}

function frame({ drawing, x }: Chart, title: string, y: number, height: number, scale: ValueScale): Frame {
  const place = (at: number, value: number) => ({
    x: x(at),
    y: y + height - ((value - scale.low) / (scale.high - scale.low)) * height,
  })
  for (const tick of scale.ticks) {
    const at = place(0, tick).y
    drawing.stroke(
      [
        { x: gutter, y: at },
        { x: plotRight, y: at },
      ],
      { line: ink.line, width: 0.35 },
    )
    drawing.label(gutter - 4, at + 2.4, numberText(tick), { size: 6.6, anchor: 'end' })
  }
  drawing.rect(gutter, y, plotWidth, height, { line: ink.faint, width: 0.5 })
  for (const [i, word] of title.split('\n').entries())
    drawing.label(0, y + 7 + i * 8.4, word, {
      size: 7.4,
      bold: i === 0,
      colour: i === 0 ? ink.text : ink.soft,
    })
  return { y, height, scale, place }
}

interface Line {
  name: string
  trace: Pick<Trace, 'at' | 'value'>
  colour: string
  width: number
  dash?: number
}

/** Lines are named at their last point inside the frame, each on a line of its own. */
function lines(chart: Chart, { place, y, height, scale }: Frame, drawn: readonly Line[]): void {
  const { drawing, span } = chart
  const clip = (value: number) => Math.min(scale.high, Math.max(scale.low, value))
  const shown = drawn.filter(({ trace }) => trace.at.length > 0)
  for (const { trace, colour, width, dash } of shown) {
    const look = { line: colour, width, ...(dash === undefined ? {} : { dash }) }
    let run: Place[] = []
    const lift = () => {
      if (run.length === 1) drawing.disc(run[0]!.x, run[0]!.y, 1.1, { fill: colour })
      drawing.stroke(run, look)
      run = []
    }
    const points = thinned(
      trace,
      span.from,
      span.until,
      Math.round(plotWidth / 1.5),
      gapOf(trace.at, 6 * hourMs),
    )
    for (const { at, value } of points) {
      if (value === null) lift()
      else if (at >= span.from && at <= span.until) run.push(place(at, clip(value)))
    }
    lift()
  }
  let left = gutter + 4
  for (const { name, colour, dash, width } of shown) {
    const look = { line: colour, width, ...(dash === undefined ? {} : { dash }) }
    drawing.stroke(
      [
        { x: left, y: y - 3.4 },
        { x: left + 12, y: y - 3.4 },
      ],
      look,
    )
    drawing.label(left + 15, y - 1.4, name, { size: 6.6 })
    left += 26 + name.length * 3.5
  }
  if (shown.length === 0)
    drawing.label(gutter + plotWidth / 2, y + height / 2 + 3, 'Nobody measured this.', {
      anchor: 'middle',
      size: 7.6,
    })
}

function level({ drawing }: Chart, { place }: Frame, value: number, words: string, colour: string): void {
  const at = place(0, value).y
  drawing.stroke(
    [
      { x: gutter, y: at },
      { x: plotRight, y: at },
    ],
    { line: colour, width: 0.8, dash: 4 },
  )
  drawing.label(plotRight - 3, at - 2, words, { size: 6.6, anchor: 'end', colour, bold: true })
}

function temperatures(chart: Chart, y: number): void {
  const { facts } = chart.bay
  const { limits } = facts.rules
  const traces = [facts.outside, airTrace(facts.air, 'airC'), facts.screed.coldest] as const
  const cold = limits['frost.screedC'].value
  const frost = limits['frost.onsetC'].value
  const hot = limits['mix.tempMostC'].value
  const scale = valueScale(valuesIn(traces, chart.span), [Math.min(0, frost), cold + 5], 4)
  const strip = frame(chart, 'Temperature\n°C', y, heights.temperature, scale)
  level(chart, strip, frost, `freezes at ${numberText(frost)} °C`, ink.stop)
  if (cold !== frost) level(chart, strip, cold, `least ${numberText(cold)} °C`, ink.act)
  if (scale.high >= hot) level(chart, strip, hot, `most ${numberText(hot)} °C`, ink.act)
  lines(chart, strip, [
    { name: 'Outside', trace: traces[0], colour: ink.faint, width: 0.7, dash: 2 },
    { name: 'Air of the room', trace: traces[1], colour: ink.watch, width: 0.7 },
    { name: 'In the screed', trace: traces[2], colour: ink.text, width: 1.2 },
  ])
}

function humidity(chart: Chart, y: number): void {
  const trace = airTrace(chart.bay.facts.air, 'rhPercent')
  const scale = capped(valueScale(valuesIn([trace], chart.span), [40, 80], 3))
  const strip = frame(chart, 'Air humidity\n%', y, heights.humidity, scale)
  lines(chart, strip, [{ name: 'Air of the room', trace, colour: ink.watch, width: 0.7 }])
}

function evaporation(chart: Chart, y: number): void {
  const { facts } = chart.bay
  const points = facts.evaporation
  const trace = {
    at: Float64Array.from(points, ({ at }) => at),
    value: Float64Array.from(points, ({ kgPerM2h }) => kgPerM2h),
  }
  const limit = facts.rules.limits['evaporation.act']
  const scale = valueScale(valuesIn([trace], chart.span), [0, limit.value * 1.2], 3)
  const strip = frame(chart, 'Evaporation\nkg/(m²·h)', y, heights.evaporation, scale)
  level(chart, strip, limit.value, limitText(limit), ink.act)
  lines(chart, strip, [{ name: 'From the open screed, worked out', trace, colour: ink.accent, width: 0.9 }])
}

function drawLanes(chart: Chart, lanes: readonly Lane[], from: number): number {
  const { drawing, x, span } = chart
  let y = from
  for (const { name, rows } of lanes) {
    drawing.label(0, y + 8, laneTitles[name], { size: 7.4, bold: true, colour: ink.text })
    const colour = barInk[name] ?? ink.watch
    for (const row of rows) {
      let free = Number.NEGATIVE_INFINITY
      for (const item of row) {
        const left = Math.max(gutter, x(Math.max(item.from, span.from)))
        const right = Math.min(plotRight, x(Math.min(item.until ?? span.until, span.until)))
        const isBar = item.drawn === 'bar'
        if (isBar)
          drawing.rect(left, y + 2, Math.max(1, right - left), laneHeight - 4, {
            ...(item.weak ? { fill: ink.paper } : { fill: colour, fillOpacity: 0.22 }),
            line: colour,
            width: 0.5,
          })
        else drawing.rect(left - 0.9, y + 2, 1.8, laneHeight - 4, { fill: item.weak ? ink.faint : colour })
        const begin = left + (isBar ? 3 : 3.4)
        const words = shortened(item.label, 26)
        const needs = words.length * 3.2 + 4
        const fits = isBar ? right - left > needs : begin + needs < plotRight
        if (begin < free || !fits) continue
        drawing.label(begin, y + 8, words, { size: 6, colour: ink.text })
        free = begin + needs
      }
      y += laneHeight
    }
    y += 3
    drawing.stroke(
      [
        { x: gutter, y: y - 1.5 },
        { x: plotRight, y: y - 1.5 },
      ],
      { line: ink.line, width: 0.3 },
    )
  }
  return y
}

/** Readings on the scale of the agreed test; the estimate only where it is humidity in the screed. */
function drying(chart: Chart, y: number): void {
  const { bay, drawing, span } = chart
  const { story } = bay
  const humid = '% RH'
  const agreed = moistureUnit(story.zone.body.moistureMethod)
  const shown = bay.tests.filter(({ acceptance }) => acceptance.value !== null)
  const unit = agreed === humid || shown.every((test) => test.acceptance.unit !== agreed) ? humid : agreed
  const same = shown.filter(({ acceptance }) => acceptance.unit === unit)
  const limit: Limit | null =
    (bay.readiness.governing?.limit.unit === unit ? bay.readiness.governing.limit : null) ??
    same.findLast((test) => test.limit !== null)?.limit ??
    (bay.forecast?.limit?.unit === unit ? bay.forecast.limit : null)
  const band =
    unit === humid ? (bay.forecast?.band ?? []).filter(({ at }) => at >= span.from && at <= span.until) : []
  const values = [
    ...same.flatMap(({ acceptance }) => acceptance.value ?? []),
    ...band.flatMap(({ p10, p90 }) => [p10, p90]),
  ]
  const hold = [...(limit === null ? [] : [limit.value]), ...(unit === humid ? [100] : [0])]
  const scale = unit === humid ? capped(valueScale(values, hold, 4)) : valueScale(values, hold, 4)
  const strip = frame(
    chart,
    `Drying\n${unit === humid ? 'humidity in' : 'moisture,'}\n${unit === humid ? 'the screed, %' : unit}`,
    y,
    heights.drying,
    scale,
  )
  const { place } = strip
  if (band.length > 1) {
    const edge = [
      ...band.map(({ at, p90 }) => place(at, p90)),
      ...band.toReversed().map(({ at, p10 }) => place(at, p10)),
    ]
    drawing.shape(edge, { fill: ink.accent, fillOpacity: 0.18 })
    drawing.stroke(
      band.map(({ at, p50 }) => place(at, p50)),
      { line: ink.accent, width: 1.1 },
    )
    const likely = bay.forecast?.p50 ?? null
    const words =
      likely === null
        ? 'Estimate: 10 to 90 %, and even chances'
        : `Estimate: even chances by ${dayText(Date.parse(likely), story.timeZone, chart.bay.facts.asOf)}; it never permits covering`
    drawing.stroke(
      [
        { x: gutter + 4, y: y - 3.4 },
        { x: gutter + 16, y: y - 3.4 },
      ],
      { line: ink.accent, width: 1.1 },
    )
    drawing.label(gutter + 19, y - 1.4, words, { size: 6.6 })
  }
  if (limit !== null) level(chart, strip, limit.value, `limit ${limitText(limit)}`, ink.stop)
  for (const { at, acceptance, valid, entry } of same) {
    if (at < span.from || at > span.until) continue
    const spot = place(at, acceptance.value ?? 0)
    drawing.rect(
      spot.x - 2.4,
      spot.y - 2.4,
      4.8,
      4.8,
      valid ? { fill: ink.text } : { fill: ink.paper, line: ink.text, width: 0.8 },
    )
    const words = `${entry.body.point} ${numberText(acceptance.value ?? Number.NaN, 1)}${valid ? '' : ' (not valid)'}`
    const leftwards = spot.x > plotRight - 60
    drawing.label(spot.x + (leftwards ? -4 : 4), spot.y + 2.2, words, {
      size: 6.4,
      colour: ink.text,
      anchor: leftwards ? 'end' : 'start',
    })
  }
  if (band.length === 0 && same.length === 0)
    drawing.label(
      gutter + plotWidth / 2,
      y + heights.drying / 2,
      'No test on this scale, and no estimate asked for.',
      { anchor: 'middle', size: 7.6 },
    )
}

function capped(scale: ValueScale): ValueScale {
  return { ...scale, high: Math.min(100, scale.high), ticks: scale.ticks.filter((tick) => tick <= 100) }
}

function* valuesIn(traces: readonly Pick<Trace, 'at' | 'value'>[], span: Span): Generator<number> {
  for (const { at, value } of traces)
    for (let i = 0; i < at.length; i++) if (at[i]! >= span.from && at[i]! <= span.until) yield value[i]!
}
