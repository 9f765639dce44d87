import { type TimeTick, valueScale } from '#model/chart/index.ts'
import { limitText } from '#model/rules/index.ts'
import { airTrace } from '#model/watch/facts/air.ts'
import { dayMs } from '#model/watch/facts/time.ts'
import { rankOf } from '#model/watch/index.ts'
import { numberText, shortened } from '../../site-text.ts'
import { ink } from '../look.ts'
import { type Chart, capped, frame, level, lines, plotRight, valuesIn } from './frame.ts'

/** Days and hours on the site's clock, and the day of the bay's life below. */
export function drawAxis({ drawing, x, bay }: Chart, ticks: readonly TimeTick[], height: number): void {
  const { t0 } = bay.facts.life
  for (const { at, label } of ticks) {
    const ends = [
      { x: x(at), y: 20 },
      { x: x(at), y: height },
    ]
    drawing.stroke(ends, { line: ink.line, width: 0.4 })
    if (x(at) > plotRight - 24) continue
    drawing.label(x(at), 8, label, { size: 7, colour: ink.text })
    if (t0 !== null && at >= t0)
      drawing.label(x(at), 16, `day ${Math.floor((at - t0) / dayMs)}`, { size: 6.2 })
  }
}

/** A triangle where an alert began; words as far as there is room, and all of them in the table of alerts. */
export function drawAlerts({ drawing, x, bay, span }: Chart, y: number): void {
  drawing.label(0, y + 8, 'Alerts', { size: 7.4, bold: true, colour: ink.text })
  let free = Number.NEGATIVE_INFINITY
  const seen = bay.alerts.filter(({ since }) => since >= span.from && since <= span.until)
  for (const { since, severity, title } of seen.toSorted(
    (a, b) => a.since - b.since || rankOf(a.severity) - rankOf(b.severity),
  )) {
    const at = x(since)
    const colour = severity === 'stop' ? ink.stop : severity === 'act' ? ink.act : ink.unproven
    const corners = [
      { x: at, y: y + 3 },
      { x: at + 3.4, y: y + 9 },
      { x: at - 3.4, y: y + 9 },
    ]
    drawing.shape(corners, { fill: colour })
    const words = shortened(title, 34)
    const end = at + 8 + words.length * 3.2
    if (at < free || end > plotRight) continue
    drawing.label(at + 5, y + 8.6, words, { size: 6.2, colour })
    free = end
  }
}

/** Air of the room, air outside and the screed, with the temperatures that matter. */
export function drawTemperatures(chart: Chart, y: number, height: number): void {
  const { facts } = chart.bay
  const { limits } = facts.rules
  const traces = [facts.outside, airTrace(facts.air, 'airC'), facts.screed.coldest] as const
  const cold = limits['frost.screedC'].value
  const frost = limits['frost.onsetC'].value
  const hot = limits['mix.tempMostC'].value
  const scale = valueScale(valuesIn(traces, chart.span), [Math.min(0, frost), cold + 5], 4)
  const strip = frame(chart, ['Temperature', '°C'], y, height, scale)
  level(chart, strip, frost, `freezes at ${numberText(frost)} °C`, ink.stop)
  if (cold !== frost) level(chart, strip, cold, `at least ${numberText(cold)} °C`, ink.act)
  if (scale.high > hot) level(chart, strip, hot, `at most ${numberText(hot)} °C`, ink.act)
  lines(chart, strip, [
    { name: 'Outside', trace: traces[0], colour: ink.faint, width: 0.7, dash: 2 },
    { name: 'Air of the room', trace: traces[1], colour: ink.watch, width: 0.7 },
    { name: 'In the screed', trace: traces[2], colour: ink.text, width: 1.2 },
  ])
}

export function drawHumidity(chart: Chart, y: number, height: number): void {
  const trace = airTrace(chart.bay.facts.air, 'rhPercent')
  const scale = capped(valueScale(valuesIn([trace], chart.span), [40, 80], 3))
  const strip = frame(chart, ['Air humidity', '%'], y, height, scale)
  lines(chart, strip, [{ name: 'Air of the room', trace, colour: ink.watch, width: 0.7 }])
}

/** The rate from the open screed while it matters, worked out from the air. */
export function drawEvaporation(chart: Chart, y: number, height: number): void {
  const { evaporation, rules } = chart.bay.facts
  const trace = {
    at: Float64Array.from(evaporation, ({ at }) => at),
    value: Float64Array.from(evaporation, ({ kgPerM2h }) => kgPerM2h),
  }
  const limit = rules.limits['evaporation.act']
  const scale = valueScale(valuesIn([trace], chart.span), [0, limit.value * 1.2], 3)
  const strip = frame(chart, ['Evaporation', 'kg/(m²·h)'], y, height, scale)
  level(chart, strip, limit.value, limitText(limit), ink.act)
  lines(chart, strip, [
    { name: 'From the open screed, worked out from the air', trace, colour: ink.accent, width: 0.9 },
  ])
}
