import type { CanvasElement, Content, ContentStack } from 'pdfmake/interfaces.js'
import { ink } from './look.ts'

export interface Place {
  x: number
  y: number
}

interface Look {
  /** A colour, or a pattern of `patterns` with its colour. */
  fill?: string | [string, string]
  fillOpacity?: number
  line?: string
  width?: number
  dash?: number
}

interface LabelLook {
  size?: number
  bold?: boolean
  colour?: string
  /** Where the place is: at the left end, in the middle or at the right end of the words. */
  anchor?: 'start' | 'middle' | 'end'
}

/** Shapes and words at places in points, from the upper left corner; printed as vectors and as text that can be searched. */
export interface Drawing {
  shape: (points: readonly Place[], look: Look) => void
  stroke: (points: readonly Place[], look: Look) => void
  rect: (x: number, y: number, width: number, height: number, look: Look) => void
  disc: (x: number, y: number, radius: number, look: Look) => void
  /** Words whose baseline is about at `y`. */
  label: (x: number, y: number, text: string, look?: LabelLook) => void
  content: () => ContentStack
}

/** Room on either side of an anchored label [pt]. */
const reach = 150

export function drawingOf(width: number, height: number): Drawing {
  const shapes: CanvasElement[] = [{ type: 'rect', x: 0, y: 0, w: width, h: height, color: ink.paper }]
  const labels: Content[] = []
  return {
    shape: (points, look) =>
      shapes.push({ type: 'polyline', points: points.map(onPaper), closePath: true, ...painted(look) }),
    stroke: (points, look) => {
      if (points.length > 1) shapes.push({ type: 'polyline', points: points.map(onPaper), ...painted(look) })
    },
    rect: (x, y, w, h, look) => shapes.push({ type: 'rect', ...onPaper({ x, y }), w, h, ...painted(look) }),
    disc: (x, y, radius, look) =>
      shapes.push({ type: 'ellipse', ...onPaper({ x, y }), r1: radius, r2: radius, ...painted(look) }),
    label: (x, y, text, { size = 7, bold = false, colour = ink.soft, anchor = 'start' } = {}) => {
      const words = { text, fontSize: size, bold, color: colour, noWrap: true, lineHeight: 1 }
      // The labels follow the shapes, so their places count from below them.
      const top = y - height - size * 0.93
      if (anchor === 'start') {
        labels.push({ ...words, relativePosition: { x, y: top } })
        return
      }
      const left = anchor === 'middle' ? x - reach : x - 2 * reach
      labels.push({
        columns: [{ ...words, width: 2 * reach, alignment: anchor === 'middle' ? 'center' : 'right' }],
        relativePosition: { x: left, y: top },
      })
    },
    content: () => ({ stack: [{ canvas: shapes }, ...labels], unbreakable: true }),
  }
}

function painted({ fill, fillOpacity, line, width = 0.8, dash }: Look) {
  return {
    ...(fill === undefined ? {} : { color: fill as string }),
    ...(fillOpacity === undefined ? {} : { fillOpacity }),
    ...(line === undefined ? {} : { lineColor: line, lineWidth: width }),
    ...(dash === undefined ? {} : { dash: { length: dash } }),
  }
}

/** To a twentieth of a point: finer is not seen, and makes the file longer. */
function onPaper({ x, y }: Place): Place {
  return { x: Math.round(x * 20) / 20, y: Math.round(y * 20) / 20 }
}
