import type { Content } from 'pdfmake/interfaces.js'
import type { BodyOf } from '#model/record/kinds.ts'
import type { BayFile } from '../handover/bay-file.ts'
import { shortened } from '../site-text.ts'
import { drawingOf, type Place } from './drawing.ts'
import { ink, textWidth } from './look.ts'
import { stateLooks } from './marks.ts'

const margin = 14
const mostHeight = 300

/** One level to scale: every chosen bay with its state as hatch, colour and word; joints of the base below dashed. */
export function statusPlan(floor: BodyOf<'floor-added'>, bays: readonly BayFile[]): Content {
  const joints = (floor.baseJoints ?? []).flatMap(({ fromX, fromY, toX, toY }) => [
    { x: fromX, y: fromY },
    { x: toX, y: toY },
  ])
  const outlines = [...bays.flatMap(({ story }) => story.bay.body.outline), ...joints]
  const xs = outlines.map(({ x }) => x)
  const ys = outlines.map(({ y }) => y)
  const [left, top] = [Math.min(...xs), Math.max(...ys)]
  const across = Math.max(Math.max(...xs) - left, 0.01)
  const up = Math.max(top - Math.min(...ys), 0.01)
  const scale = Math.min((textWidth - 2 * margin) / across, (mostHeight - 2 * margin) / up)
  const height = up * scale + 2 * margin
  const place = ({ x, y }: Place): Place => ({
    x: margin + (x - left) * scale,
    y: margin + (top - y) * scale,
  })

  const drawing = drawingOf(textWidth, height)
  for (const { story, state } of bays) {
    const corners = story.bay.body.outline.map(place)
    const { fill, colour } = stateLooks[state.word]
    if (fill !== undefined) drawing.shape(corners, { fill })
    drawing.shape(corners, {
      line: state.word === 'planned' ? colour : ink.text,
      width: 1.1,
      ...(fill === undefined ? { dash: 4 } : {}),
    })
  }
  for (const { fromX, fromY, toX, toY } of floor.baseJoints ?? []) {
    const ends = [place({ x: fromX, y: fromY }), place({ x: toX, y: toY })]
    drawing.stroke(ends, { line: ink.stop, width: 1.4, dash: 3 })
  }
  for (const { story, state } of bays) {
    const corners = story.bay.body.outline.map(place)
    const [west, east] = [Math.min(...corners.map(({ x }) => x)), Math.max(...corners.map(({ x }) => x))]
    const [north, south] = [Math.min(...corners.map(({ y }) => y)), Math.max(...corners.map(({ y }) => y))]
    const room = Math.max(26, Math.min(86, east - west - 8))
    const middle = { x: (west + east) / 2, y: (north + south) / 2 }
    // A plain ground, so that the words are read above the hatch.
    drawing.rect(middle.x - room / 2, middle.y - 14, room, 28, {
      fill: ink.paper,
      line: ink.line,
      width: 0.4,
    })
    const name = shortened(story.bay.body.name, Math.floor(room / 5.4))
    drawing.label(middle.x, middle.y - 2.5, name, { anchor: 'middle', size: 9, bold: true, colour: ink.text })
    const { word, colour } = stateLooks[state.word]
    drawing.label(middle.x, middle.y + 9, word, { anchor: 'middle', size: 7.4, bold: true, colour })
  }
  return drawing.content()
}

/** Which hatch stands for which word, for the words that are on the plan. */
export function statusKey(bays: readonly BayFile[], hasBaseJoints: boolean): Content {
  const words = (Object.keys(stateLooks) as (keyof typeof stateLooks)[]).filter((word) =>
    bays.some(({ state }) => state.word === word),
  )
  const drawing = drawingOf(textWidth, 16)
  let x = 0
  for (const key of words) {
    const { word, fill, colour } = stateLooks[key]
    if (fill !== undefined) drawing.rect(x, 2, 18, 11, { fill })
    drawing.rect(x, 2, 18, 11, { line: colour, width: 0.8, ...(fill === undefined ? { dash: 3 } : {}) })
    drawing.label(x + 22, 10.5, word, { size: 7.4 })
    x += 30 + word.length * 4.4
  }
  if (hasBaseJoints) {
    const ends = [
      { x, y: 7.5 },
      { x: x + 18, y: 7.5 },
    ]
    drawing.stroke(ends, { line: ink.stop, width: 1.4, dash: 3 })
    drawing.label(x + 22, 10.5, 'Joint in the base below', { size: 7.4 })
  }
  return drawing.content()
}
