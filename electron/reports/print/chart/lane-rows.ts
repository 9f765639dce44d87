import type { Lane, LaneItem, LaneWords } from '#model/chart/index.ts'
import { shortened } from '../../site-text.ts'
import { ink } from '../look.ts'
import { type Chart, gutter, plotRight, type Span } from './frame.ts'

const laneHeight = 11

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

export const laneWords: LaneWords = {
  lift: (number, mm) => `Lift ${number}, ${mm} mm`,
  batch: () => '',
  finish: 'Finished',
  covered: 'Whole sheet',
  partly: (percent) => `Sheet over ${percent} %`,
  noTraffic: 'None',
  heatingOff: 'Off',
  heatingOn: (flow) => `${flow} °C`,
  heatingRun: 'Running',
  surveyed: 'Base',
  planned: 'planned',
}

const laneInk: Partial<Record<Lane['name'], string>> = {
  sheets: ink.accent,
  heating: ink.act,
  traffic: ink.stop,
  defects: ink.stop,
}

/** The lanes with what falls into a stretch of time. */
export function lanesIn(lanes: readonly Lane[], span: Span): Lane[] {
  const inside = ({ from, until }: LaneItem) =>
    from <= span.until && (until ?? Number.POSITIVE_INFINITY) >= span.from
  return lanes
    .map(({ name, rows }) => ({ name, rows: rows.map((row) => row.filter(inside)) }))
    .map(({ name, rows }) => ({ name, rows: rows.filter((row) => row.length > 0) }))
    .filter(({ rows }) => rows.length > 0)
}

export function heightOf(lanes: readonly Lane[]): number {
  return lanes.reduce((sum, { rows }) => sum + rows.length * laneHeight + 3, 0)
}

/** A bar for what lasts, a mark for an instant, words where they fit before the next. */
export function drawLanes(chart: Chart, lanes: readonly Lane[], from: number): void {
  const { drawing } = chart
  let y = from
  for (const { name, rows } of lanes) {
    drawing.label(0, y + 8, laneTitles[name], { size: 7.4, bold: true, colour: ink.text })
    for (const row of rows) {
      drawRow(chart, row, y, laneInk[name] ?? ink.watch)
      y += laneHeight
    }
    y += 3
    const ends = [
      { x: gutter, y: y - 1.5 },
      { x: plotRight, y: y - 1.5 },
    ]
    drawing.stroke(ends, { line: ink.line, width: 0.3 })
  }
}

function drawRow(
  { drawing, x, span, bay }: Chart,
  row: readonly LaneItem[],
  y: number,
  colour: string,
): void {
  // What still lasts is drawn up to the instant of the record: nobody knows for how long it will.
  const placed = row.map((item) => ({
    item,
    left: Math.max(gutter, x(Math.max(item.from, span.from))),
    right: Math.min(plotRight, x(Math.min(item.until ?? bay.facts.asOf, span.until))),
  }))
  for (const { item, left, right } of placed) {
    const height = laneHeight - 4
    if (item.drawn === 'bar') {
      const fill = item.weak ? { fill: ink.paper } : { fill: colour, fillOpacity: 0.22 }
      drawing.rect(left, y + 2, Math.max(1, right - left), height, { ...fill, line: colour, width: 0.5 })
    } else drawing.rect(left - 0.9, y + 2, 1.8, height, { fill: item.weak ? ink.faint : colour })
  }
  for (const [i, { item, left, right }] of placed.entries()) {
    if (item.label === '') continue
    const next = placed.slice(i + 1).find((other) => other.left > left - 2)?.left ?? plotRight
    const place = placeOf(item, left, right, next)
    const letters = lettersIn(place.room)
    if (letters < Math.min(item.label.length, 7)) continue
    drawing.label(place.begin, y + 8, shortened(item.label, Math.min(letters, mostLetters)), {
      size: 6,
      colour: ink.text,
    })
  }
}

const mostLetters = 32
const lettersIn = (room: number) => Math.floor(room / 3.15)

/** Where the label of an item stands: in its bar, or beside it where only there is room for all of it. */
function placeOf({ drawn, label }: LaneItem, left: number, right: number, next: number) {
  if (drawn === 'mark') return { begin: left + 3.4, room: next - left - 5.4 }
  const inside = { begin: left + 3, room: Math.min(right, next) - left - 5 }
  const beside = { begin: right + 3, room: next - right - 5 }
  const wanted = Math.min(label.length, mostLetters)
  return lettersIn(inside.room) < wanted && lettersIn(beside.room) >= wanted ? beside : inside
}
