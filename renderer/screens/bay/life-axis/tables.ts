import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { moistureMethods } from '#model/record/words.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { bayWords } from '../../../app/words/bay.ts'
import type { ChartTable } from '../../../charts/table.ts'
import { calendarDayText, siteDay } from '../../../parts/site-time.ts'
import type { Lane } from './lanes.ts'
import { type BayReadings, readingNames } from './readings.ts'

const words = bayWords.table
const columns = {
  air: { name: bayWords.axis.air, unit: '°C' },
  screed: { name: bayWords.axis.screed, unit: '°C' },
  outside: { name: bayWords.axis.outside, unit: '°C' },
  rh: { name: bayWords.axis.humidity.split(',')[0]!, unit: '%' },
} as const

/** How a table says a moment: for people on screen, as ISO 8601 with the site's offset in a saved file. */
export type MomentWords = (at: number) => string

/** What happened, as a table: one row a bar or mark of the lanes. */
export function happeningsTable(title: string, lanes: readonly Lane[], moment: MomentWords): ChartTable {
  const items = lanes.flatMap(({ name, rows }) =>
    rows.flat().map((item) => ({ lane: bayWords.lanes[name], item })),
  )
  return {
    title,
    columns: [{ name: words.from }, { name: words.until }, { name: words.lane }, { name: words.what }],
    rows: items
      .toSorted((a, b) => a.item.from - b.item.from)
      .map(({ lane, item: { from, until, label } }) => [
        moment(from),
        until === null ? words.open : until === from ? null : moment(until),
        lane,
        label,
      ]),
  }
}

/** Every reading, one row an instant: this is what is saved. */
export function readingsTable(title: string, readings: BayReadings, moment: MomentWords): ChartTable {
  const rows = new Map<number, (number | null)[]>()
  for (const [column, name] of readingNames.entries()) {
    const { at, value } = readings[name]
    for (let i = 0; i < at.length; i++) {
      const row = rows.get(at[i]!) ?? readingNames.map(() => null)
      row[column] = value[i]!
      rows.set(at[i]!, row)
    }
  }
  return {
    title,
    columns: [{ name: words.time }, ...readingNames.map((name) => columns[name])],
    rows: [...rows.entries()].sort(([a], [b]) => a - b).map(([at, values]) => [moment(at), ...values]),
  }
}

/** The lowest and the highest reading of each day: this is what is shown, because a person cannot read ten thousand rows. */
export function dailyTable(title: string, readings: BayReadings, zone: string): ChartTable {
  const days = new Map<string, (number | null)[]>()
  for (const [column, name] of readingNames.entries()) {
    const { at, value } = readings[name]
    for (let i = 0; i < at.length; i++) {
      const day = siteDay(at[i]!, zone)
      const row = days.get(day) ?? readingNames.flatMap(() => [null, null])
      const [low, high] = [row[2 * column] ?? null, row[2 * column + 1] ?? null]
      row[2 * column] = low === null ? value[i]! : Math.min(low, value[i]!)
      row[2 * column + 1] = high === null ? value[i]! : Math.max(high, value[i]!)
      days.set(day, row)
    }
  }
  const heads = readingNames.flatMap((name) => [
    { name: `${columns[name].name}, ${words.lowest}`, unit: columns[name].unit },
    { name: `${columns[name].name}, ${words.highest}`, unit: columns[name].unit },
  ])
  return {
    title,
    columns: [{ name: words.day }, ...heads],
    rows: [...days.entries()]
      .sort(([a], [b]) => a.localeCompare(b))
      .map(([day, values]) => [calendarDayText(day), ...values]),
  }
}

/** The estimate of the drying. */
export function dryingTable(title: string, forecast: ReadyForecast, zone: string): ChartTable {
  return {
    title,
    columns: [
      { name: words.date },
      { name: words.p10, unit: '% RH' },
      { name: words.p50, unit: '% RH' },
      { name: words.p90, unit: '% RH' },
    ],
    rows: forecast.band.map(({ at, p10, p50, p90 }) => [
      siteDay(at, zone),
      rounded(p10),
      rounded(p50),
      rounded(p90),
    ]),
  }
}

/** Every moisture test with what it shows and whether it counts. */
export function testsTable(title: string, tests: readonly JudgedTest[], moment: MomentWords): ChartTable {
  return {
    title,
    columns: [
      { name: words.time },
      { name: words.method },
      { name: words.point },
      { name: words.value },
      { name: words.unit },
      { name: words.valid },
      { name: words.why },
    ],
    rows: tests.map(({ at, entry, acceptance, valid, contradictions }) => [
      moment(at),
      moistureMethods[entry.body.method],
      entry.body.point,
      acceptance.value === null ? null : rounded(acceptance.value),
      acceptance.unit,
      valid ? words.yes : words.no,
      [...contradictions, ...acceptance.reasons].join(' '),
    ]),
  }
}

const rounded = (value: number) => Math.round(value * 100) / 100
