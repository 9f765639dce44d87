import type { FaultPage } from '#model/contract/faults.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import type { ChartTable } from '../../../../charts/table.ts'
import type { StripLine } from '../../../../charts/time-strip.tsx'

const words = faultsWords.gauge
const looks = [
  { colour: 'var(--accent)', dash: undefined },
  { colour: 'var(--act)', dash: '7 4' },
  { colour: 'var(--watch)', dash: '2 4' },
  { colour: 'var(--ink)', dash: '10 4 2 4' },
]

/** One line for each place that is gauged, told apart by colour and by dash. */
export function gaugeLines(gauged: FaultPage['gauged']): StripLine[] {
  const places = Map.groupBy(gauged, ({ body }) => body.place)
  return [...places].map(([place, readings], i) => ({
    name: place,
    points: readings.map(({ happenedAt, body }) => ({ at: happenedAt, value: body.widthMm })),
    width: 2.25,
    ...looks[i % looks.length]!,
  }))
}

interface Texts {
  moment: (at: number) => string
  person: (id: string) => string
}

/** The readings as a table, oldest first. */
export function gaugeTable(
  gauged: FaultPage['gauged'],
  title: string,
  { moment, person }: Texts,
): ChartTable {
  const { columns } = words
  return {
    title,
    columns: [
      { name: columns.at },
      { name: columns.place },
      { name: columns.width, unit: 'mm' },
      { name: columns.surface, unit: '°C' },
      { name: columns.by },
    ],
    rows: gauged.map(({ happenedAt, body, person: by }) => [
      moment(happenedAt),
      body.place,
      body.widthMm,
      body.surfaceC ?? null,
      person(by),
    ]),
  }
}
