import { gapOf, thinned, type ValueScale } from '#model/chart/index.ts'
import { hourMs } from '#model/watch/facts/time.ts'
import type { Trace } from '#model/watch/facts/trace.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import { numberText } from '../../site-text.ts'
import type { Drawing, Place } from '../drawing.ts'
import { ink, textWidth } from '../look.ts'

export interface Span {
  from: number
  until: number
}

/** Left of it stand the names of the strips [pt]. */
export const gutter = 62
export const plotRight = textWidth - 4
export const plotWidth = plotRight - gutter

/** What every strip of a chart is drawn with. */
export interface Chart {
  bay: BayFile
  drawing: Drawing
  span: Span
  /** Where an instant stands [pt]. */
  x: (at: number) => number
  /** Words that end at the right stop before the line of the record's instant. */
  wordsEnd: number
}

export type Points = Pick<Trace, 'at' | 'value'>

interface Frame {
  y: number
  height: number
  scale: ValueScale
  place: (at: number, value: number) => Place
}

/** Draws the frame of a strip with its scale; the first line of the title is its name, the others say what it is in. */
export function frame(
  { drawing, x }: Chart,
  title: readonly string[],
  y: number,
  height: number,
  scale: ValueScale,
): Frame {
  const place = (at: number, value: number) => ({
    x: x(at),
    y: y + height - ((value - scale.low) / (scale.high - scale.low)) * height,
  })
  for (const tick of scale.ticks) {
    const at = place(0, tick).y
    across(drawing, at, { line: ink.line, width: 0.35 })
    drawing.label(gutter - 4, at + 2.4, numberText(tick), { size: 6.6, anchor: 'end' })
  }
  drawing.rect(gutter, y, plotWidth, height, { line: ink.faint, width: 0.5 })
  for (const [i, word] of title.entries()) {
    const look = i === 0 ? { bold: true, colour: ink.text } : {}
    drawing.label(0, y + 9 + i * 8.6, word, { size: 7.4, ...look })
  }
  return { y, height, scale, place }
}

export interface Line {
  name: string
  trace: Points
  colour: string
  width: number
  dash?: number
}

/** Draws lines through readings, with their names above the frame. Where nobody read for long the line is not joined. */
export function lines(chart: Chart, strip: Frame, drawn: readonly Line[]): void {
  const { drawing, span } = chart
  const { place, y, scale } = strip
  const shown = drawn.filter(({ trace }) => trace.at.length > 0)
  for (const { trace, colour, width, dash } of shown) {
    let run: Place[] = []
    const lift = () => {
      if (run.length === 1) drawing.disc(run[0]!.x, run[0]!.y, 1.1, { fill: colour })
      drawing.stroke(run, { line: colour, width, ...(dash === undefined ? {} : { dash }) })
      run = []
    }
    const columns = Math.round(plotWidth / 1.5)
    for (const { at, value } of thinned(trace, span.from, span.until, columns, gapOf(trace.at, 6 * hourMs))) {
      if (value === null) lift()
      else if (at >= span.from && at <= span.until)
        run.push(place(at, Math.min(scale.high, Math.max(scale.low, value))))
    }
    lift()
  }
  let left = gutter
  for (const line of shown) left = named(chart, line, left, y)
  if (shown.length === 0) saying(chart, strip, 'Nobody measured this.')
}

/** The name of a line above its frame, with a piece of the line; returns where the next may begin. */
export function named(
  { drawing }: Chart,
  { name, colour, width, dash }: Omit<Line, 'trace'>,
  left: number,
  y: number,
): number {
  const ends = [
    { x: left, y: y - 4.8 },
    { x: left + 13, y: y - 4.8 },
  ]
  drawing.stroke(ends, { line: colour, width, ...(dash === undefined ? {} : { dash }) })
  drawing.label(left + 16, y - 2.8, name, { size: 6.6 })
  return left + 28 + name.length * 3.4
}

/** What is said in an empty strip. */
export function saying({ drawing }: Chart, { y, height }: Pick<Frame, 'y' | 'height'>, words: string): void {
  drawing.label(gutter + plotWidth / 2, y + height / 2 + 3, words, { anchor: 'middle', size: 7.6 })
}

/** A limit across the strip, with its words. */
export function level(
  { drawing, wordsEnd }: Chart,
  { place }: Frame,
  value: number,
  words: string,
  colour: string,
): void {
  const at = place(0, value).y
  across(drawing, at, { line: colour, width: 0.8, dash: 4 })
  drawing.label(wordsEnd, at - 2, words, { size: 6.6, anchor: 'end', colour, bold: true })
}

function across(drawing: Drawing, y: number, look: Parameters<Drawing['stroke']>[1]): void {
  drawing.stroke(
    [
      { x: gutter, y },
      { x: plotRight, y },
    ],
    look,
  )
}

/** A scale that ends at 100 %. */
export function capped(scale: ValueScale): ValueScale {
  return { ...scale, high: Math.min(100, scale.high), ticks: scale.ticks.filter((tick) => tick <= 100) }
}

export function* valuesIn(traces: readonly Points[], span: Span): Generator<number> {
  for (const { at, value } of traces)
    for (let i = 0; i < at.length; i++) if (at[i]! >= span.from && at[i]! <= span.until) yield value[i]!
}
