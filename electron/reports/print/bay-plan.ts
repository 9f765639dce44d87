import type { Content } from 'pdfmake/interfaces.js'
import { entriesOf } from '#model/record/story.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { shortened } from '../site-text.ts'
import { drawingOf, type Place } from './drawing.ts'
import { ink } from './look.ts'

const margin = 18
/** From a place to the words above and below it, clear of the ring [pt]. */
const [labelRise, labelDrop] = [10, 16]

/** The bay to scale, with its joints and the places that were tested; the one that decides has a ring. */
export function bayPlan({ story, tests, readiness }: BayFile, width: number, mostHeight: number): Content {
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
  const bottom = place({ x: left, y: top - up }).y
  drawing.label(width / 2, bottom + 10, `${metres(across)} m`, { anchor: 'middle' })
  drawing.label(indent - 4, place({ x: left, y: top - up / 2 }).y + 2, `${metres(up)} m`, { anchor: 'end' })
  return drawing.content()
}

const metres = (value: number) => value.toFixed(1)
