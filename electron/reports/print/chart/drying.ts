import { valueScale } from '#model/chart/index.ts'
import { moistureUnit } from '#model/checks/index.ts'
import { limitText } from '#model/rules/index.ts'
import type { Limit } from '#model/rules/limit.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import { dayText, numberText } from '../../site-text.ts'
import { ink } from '../look.ts'
import { type Chart, capped, frame, gutter, level, named, plotRight, saying } from './frame.ts'

const humid = '% RH'

/** The readings on the scale of the agreed test with the limit; behind humidity in the screed, the estimate. */
export function drawDrying(chart: Chart, y: number, height: number): void {
  const { bay, drawing, span } = chart
  const shown = bay.tests.filter(({ acceptance }) => acceptance.value !== null)
  const unit = unitOf(bay, shown)
  const tests = shown.filter(({ acceptance }) => acceptance.unit === unit)
  const limit = limitOn(bay, tests, unit)
  const band =
    unit === humid ? (bay.forecast?.band ?? []).filter(({ at }) => at >= span.from && at <= span.until) : []
  const values = [
    ...tests.flatMap(({ acceptance }) => acceptance.value ?? []),
    ...band.flatMap(({ p10, p90 }) => [p10, p90]),
  ]
  const hold = [...(limit === null ? [] : [limit.value]), unit === humid ? 100 : 0]
  const plain = valueScale(values, hold, 4)
  const title = unit === humid ? ['Drying', 'humidity in', 'the screed, %'] : ['Drying', unit]
  const strip = frame(chart, title, y, height, unit === humid ? capped(plain) : plain)
  const { place } = strip
  if (band.length > 1) {
    const upper = band.map(({ at, p90 }) => place(at, p90))
    const lower = band.toReversed().map(({ at, p10 }) => place(at, p10))
    drawing.shape([...upper, ...lower], { fill: ink.accent, fillOpacity: 0.18 })
    const middle = band.map(({ at, p50 }) => place(at, p50))
    drawing.stroke(middle, { line: ink.accent, width: 1.1 })
    named(chart, { name: estimateWords(bay), colour: ink.accent, width: 1.1 }, gutter, y)
  }
  if (limit !== null) level(chart, strip, limit.value, `limit ${limitText(limit)}`, ink.stop)
  drawReadings(chart, tests, place)
  if (band.length === 0 && tests.length === 0) saying(chart, strip, 'No test on this scale, and no estimate.')
}

function unitOf({ story }: BayFile, shown: readonly JudgedTest[]): string {
  const agreed = moistureUnit(story.zone.body.moistureMethod)
  return agreed !== humid && shown.some(({ acceptance }) => acceptance.unit === agreed) ? agreed : humid
}

function limitOn({ readiness, forecast }: BayFile, tests: readonly JudgedTest[], unit: string): Limit | null {
  const candidates = [
    readiness.governing?.limit ?? null,
    tests.findLast((test) => test.limit !== null)?.limit ?? null,
    forecast?.limit ?? null,
  ]
  return candidates.find((limit) => limit !== null && limit.unit === unit) ?? null
}

function estimateWords({ forecast, story, facts }: BayFile): string {
  const likely = forecast?.p50 ?? null
  const by =
    likely === null
      ? 'the limit is not reached in the time looked at'
      : `even chances by ${dayText(Date.parse(likely), story.timeZone, facts.asOf)}`
  return `Estimate (10 to 90 %): ${by}. It never permits covering: only a valid test does`
}

/** A full square for a test that counts, an empty one for one that proves nothing; words that would overlap step down. */
function drawReadings(
  { drawing, span }: Chart,
  tests: readonly JudgedTest[],
  place: (at: number, value: number) => { x: number; y: number },
): void {
  const taken: { x: number; y: number }[] = []
  for (const { at, acceptance, valid, entry } of tests) {
    if (at < span.from || at > span.until) continue
    const spot = place(at, acceptance.value ?? 0)
    drawing.rect(spot.x - 2.4, spot.y - 2.4, 4.8, 4.8, {
      fill: valid ? ink.text : ink.paper,
      line: ink.text,
      width: 0.8,
    })
    let row = spot.y + 2.2
    while (taken.some((one) => Math.abs(one.x - spot.x) < 46 && Math.abs(one.y - row) < 6.6)) row += 6.8
    taken.push({ x: spot.x, y: row })
    const words = `${entry.body.point} ${numberText(acceptance.value ?? Number.NaN, 1)}${valid ? '' : ' (not valid)'}`
    const leftwards = spot.x > plotRight - 64
    drawing.label(spot.x + (leftwards ? -5 : 5), row, words, {
      size: 6.4,
      colour: ink.text,
      anchor: leftwards ? 'end' : 'start',
    })
  }
}
