import type { CanvasElement, Content } from 'pdfmake/interfaces.js'
import type { BayState } from '#model/contract/shapes.ts'
import type { Condition, ReadyVerdict } from '#model/readiness/verdict.ts'
import { ink } from './look.ts'

export const verdictWords: Record<ReadyVerdict, string> = {
  ready: 'READY',
  'not ready': 'NOT READY',
  'not proven': 'NOT PROVEN',
}
export const verdictInk: Record<ReadyVerdict, string> = {
  ready: ink.good,
  'not ready': ink.stop,
  'not proven': ink.unproven,
}
export const verdictStates: Record<ReadyVerdict, Condition['state']> = {
  ready: 'met',
  'not ready': 'not met',
  'not proven': 'unknown',
}
export const conditionWords: Record<Condition['state'], string> = {
  met: 'Met',
  'not met': 'Not met',
  unknown: 'Not known',
}

/** How a state of a bay is told on paper: by its word, its hatch and its colour, so that any one of them is enough. */
export const stateLooks: Record<BayState['word'], { word: string; fill?: [string, string]; colour: string }> =
  {
    planned: { word: 'Planned', colour: ink.faint },
    curing: { word: 'Curing', fill: ['level', ink.watch], colour: ink.watch },
    drying: { word: 'Drying', fill: ['upright', ink.accent], colour: ink.accent },
    ready: { word: 'Ready', fill: ['rising', ink.good], colour: ink.good },
    'not proven': { word: 'Not proven', fill: ['dotted', ink.unproven], colour: ink.unproven },
    covered: { word: 'Covered', fill: ['falling', ink.faint], colour: ink.faint },
    stopped: { word: 'Stopped', fill: ['crossed', ink.stop], colour: ink.stop },
  }

/** A mark with an outline of its own for each answer: a disc with a tick, a square with a cross, a lozenge with a dot. */
export function conditionMark(state: Condition['state'], size: number): Content {
  const at = (points: readonly (readonly [number, number])[]) =>
    points.map(([x, y]) => ({ x: x * size, y: y * size }))
  const stroke = { lineWidth: size * 0.11, lineColor: ink.paper, lineCap: 'round' as const }
  const shapes: Record<Condition['state'], CanvasElement[]> = {
    met: [
      { type: 'ellipse', x: size / 2, y: size / 2, r1: size / 2, r2: size / 2, color: ink.good },
      {
        type: 'polyline',
        points: at([
          [0.27, 0.52],
          [0.43, 0.68],
          [0.74, 0.33],
        ]),
        ...stroke,
      },
    ],
    'not met': [
      { type: 'rect', x: size * 0.04, y: size * 0.04, w: size * 0.92, h: size * 0.92, color: ink.stop },
      {
        type: 'polyline',
        points: at([
          [0.3, 0.3],
          [0.7, 0.7],
        ]),
        ...stroke,
      },
      {
        type: 'polyline',
        points: at([
          [0.7, 0.3],
          [0.3, 0.7],
        ]),
        ...stroke,
      },
    ],
    unknown: [
      {
        type: 'polyline',
        points: at([
          [0.5, 0.02],
          [0.98, 0.5],
          [0.5, 0.98],
          [0.02, 0.5],
        ]),
        closePath: true,
        lineColor: ink.unproven,
        lineWidth: size * 0.1,
      },
      { type: 'ellipse', x: size / 2, y: size / 2, r1: size * 0.11, r2: size * 0.11, color: ink.unproven },
    ],
  }
  return { canvas: shapes[state] }
}
