import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { moistureMethods } from '#model/record/words.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { bayWords } from '../../../app/words/bay.ts'
import type { ChartTable } from '../../../charts/table.ts'
import { siteDay, siteIso } from '../../../parts/site-time.ts'
import type { Lane } from './lanes.ts'
import { type BayReadings, readingNames } from './readings.ts'

const words = bayWords.table
const columns = {
  air: { name: bayWords.axis.air, unit: '°C' },
  screed: { name: bayWords.axis.screed, unit: '°C' },
  outside: { name: bayWords.axis.outside, unit: '°C' },
  rh: { name: bayWords.axis.humidity.split(',')[0]!, unit: '%' },
} as const

/** What happened, as a table: one row a bar or mark of the lanes. */
export function happeningsTable(title: string, lanes: readonly Lane[], zone: string): ChartTable {
  const rows = lanes.flatMap(({ name, rows: items }) =>
    items
      .flat()
      .map((item) => [
        bayWords.lanes[name],
        item.label,
        siteIso(item.from, zone),
        item.until === null ? words.open : item.until === item.from ? null : siteIso(item.until, zone),
      ]),
  )
  return {
    title,
    columns: [{ name: words.lane }, { name: words.what }, { name: words.from }, { name: words.until }],
    rows: rows.toSorted((a, b) => String(a[2]).localeCompare(String(b[2]))),
  }
}

/** Every reading, one row an instant: this is what is saved. */
export function readingsTable(title: string, readings: BayReadings, zone: string): ChartTable {
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
    rows: [...rows.entries()].sort(([a], [b]) => a - b).map(([at, values]) => [siteIso(at, zone), ...values]),
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
    rows: [...days.entries()].sort(([a], [b]) => a.localeCompare(b)).map(([day, values]) => [day, ...values]),
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
export function testsTable(title: string, tests: readonly JudgedTest[], zone: string): ChartTable {
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
      siteIso(at, zone),
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
