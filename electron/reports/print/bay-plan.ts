import type { Content } from 'pdfmake/interfaces.js'
import { entriesOf } from '#model/record/story.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { numberText, shortened } from '../site-text.ts'
import { type Drawing, drawingOf, type Place } from './drawing.ts'
import { ink } from './look.ts'

const margin = 18
/** From a place to the words above and below it, clear of the ring [pt]. */
const [labelRise, labelDrop] = [10, 16]

interface Sheet {
  drawing: Drawing
  place: (at: Place) => Place
}

/** The outline of a bay to scale, with its joints and its measures. */
function sheetOf({ story }: BayFile, width: number, mostHeight: number): Sheet {
  const { outline } = story.bay.body
  const xs = outline.map(({ x }) => x)
  const ys = outline.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.max(...ys)]
  const across = Math.max(Math.max(...xs) - left, 0.01)
  const up = Math.max(top - Math.min(...ys), 0.01)
  const scale = Math.min((width - 2 * margin) / across, (mostHeight - 2 * margin) / up)
  const height = up * scale + 2 * margin
  const indent = (width - across * scale) / 2
  const place = ({ x, y }: Place): Place => ({
    x: indent + (x - left) * scale,
    y: margin + (top - y) * scale,
  })

  const drawing = drawingOf(width, height)
  drawing.shape(outline.map(place), { fill: ink.wash, line: ink.text, width: 1.2 })
  for (const { body } of entriesOf(story, 'joint-formed')) {
    const ends = [place({ x: body.fromX, y: body.fromY }), place({ x: body.toX, y: body.toY })]
    drawing.stroke(ends, { line: ink.watch, width: 1, dash: 4 })
  }
  const bottom = place({ x: left, y: top - up }).y
  drawing.label(width / 2, bottom + 10, `${metres(across)} m`, { anchor: 'middle' })
  drawing.label(indent - 4, place({ x: left, y: top - up / 2 }).y + 2, `${metres(up)} m`, { anchor: 'end' })
  return { drawing, place }
}

/** Where each batch lies and how thick the screed was found; null when the record gives no place for either. */
export function layingMap(bay: BayFile, width: number, mostHeight: number): Content | null {
  const { story } = bay
  const strips = entriesOf(story, 'batch-mixed').flatMap(({ body: { number, fromX, fromY, toX, toY } }) =>
    fromX === undefined || fromY === undefined || toX === undefined || toY === undefined
      ? []
      : [{ number, from: { x: fromX, y: fromY }, to: { x: toX, y: toY } }],
  )
  const points = entriesOf(story, 'thickness-measured').flatMap(({ body }) =>
    body.points.flatMap(({ mm, x, y }) => (x === undefined || y === undefined ? [] : [{ mm, x, y }])),
  )
  if (strips.length === 0 && points.length === 0) return null
  const { drawing, place } = sheetOf(bay, width, mostHeight)
  for (const [i, { number, from, to }] of strips.entries()) {
    const [a, b] = [place(from), place(to)]
    const [x, y] = [Math.min(a.x, b.x), Math.min(a.y, b.y)]
    drawing.rect(x, y, Math.abs(a.x - b.x), Math.abs(a.y - b.y), { line: ink.faint, width: 0.5 })
    // Narrow strips have their numbers in two rows, so that neighbours do not run into each other.
    const row = (i % 2) * 7
    drawing.label((a.x + b.x) / 2, y + 7 + row, String(number), { size: 5.6, anchor: 'middle' })
  }
  const least = story.bay.body.minThicknessMm ?? 0
  for (const { mm, ...at } of points) {
    const { x, y } = place(at)
    const isThin = mm < least
    drawing.rect(x - 2, y - 2, 4, 4, isThin ? { line: ink.stop, fill: ink.paper } : { fill: ink.text })
    const words = `${numberText(mm)} mm`
    drawing.rect(x + 3.5, y - 4.5, words.length * 3.9 + 2, 9, { fill: ink.paper })
    drawing.label(x + 4.5, y + 2.6, words, {
      bold: true,
      colour: isThin ? ink.stop : ink.text,
    })
  }
  return drawing.content()
}

/** The bay with the places that were tested; the one that decides has a ring. */
export function bayPlan(bay: BayFile, width: number, mostHeight: number): Content {
  const { tests, readiness } = bay
  const { drawing, place } = sheetOf(bay, width, mostHeight)
  const decides = readiness.governing?.test?.entry
  const last = new Map(tests.map((test) => [test.point, test]))
  for (const { entry, valid } of last.values()) {
    const { x, y, point } = entry.body
    if (x === undefined || y === undefined) continue
    const at = place({ x, y })
    if (entry.id === decides) drawing.disc(at.x, at.y, 8, { line: ink.text, width: 1 })
    drawing.rect(at.x - 3, at.y - 3, 6, 6, valid ? { fill: ink.text } : { line: ink.text, fill: ink.paper })
    // A place under the upper edge has its words below it, so that the edge does not run through them.
    const words = at.y - labelRise < margin + 8 ? at.y + labelDrop : at.y - labelRise
    drawing.label(at.x, words, shortened(point, 16), {
      anchor: 'middle',
      size: 7.6,
      bold: true,
      colour: ink.text,
    })
  }
  return drawing.content()
}

const metres = (value: number) => value.toFixed(1)
