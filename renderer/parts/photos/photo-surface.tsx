import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import type { PhotoLine } from '#model/photos/scale.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import classes from './photos.module.css'
import { stepBeforeTurn, turnedSize, turnTransform } from './turned.ts'

export interface Point {
  x: number
  y: number
}

export interface DrawnLine extends PhotoLine {
  id: string
  label: string
  tone: 'scale' | 'mark' | 'new'
}

interface PhotoSurfaceProps {
  url: string
  widthPx: number
  heightPx: number
  quarterTurns: number
  zoom: number
  lines: readonly DrawnLine[]
  /** The first point, once it is set. */
  started: Point | null
  /** Null while nobody measures: then clicks do nothing. */
  onPoint: ((point: Point) => void) | null
}

const keys: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/**
 * The photo upright with what was measured on it. Points are pixels of the photo before it was turned by hand, so that
 * turning it later leaves them where they belong.
 */
export function PhotoSurface(props: PhotoSurfaceProps) {
  const { url, widthPx, heightPx, quarterTurns, zoom, lines, started, onPoint } = props
  const picture = useRef<SVGGElement>(null)
  const [cross, setCross] = useState<Point | null>(null)
  const { width, height } = turnedSize(widthPx, heightPx, quarterTurns)
  const size = Math.max(width, height) / zoom
  const within = ({ x, y }: Point): Point => ({
    x: round(Math.min(widthPx, Math.max(0, x))),
    y: round(Math.min(heightPx, Math.max(0, y))),
  })
  const pointAt = (event: PointerEvent): Point | null => {
    const toScreen = picture.current?.getScreenCTM()
    if (toScreen === null || toScreen === undefined) return null
    return within(new DOMPoint(event.clientX, event.clientY).matrixTransform(toScreen.inverse()))
  }
  const press = (event: PointerEvent) => {
    if (onPoint === null || event.button !== 0) return
    const point = pointAt(event)
    if (point === null) return
    setCross(point)
    onPoint(point)
  }
  const steer = (event: KeyboardEvent) => {
    if (onPoint === null) return
    const here = cross ?? { x: widthPx / 2, y: heightPx / 2 }
    const direction = keys[event.key]
    if (direction !== undefined) {
      event.preventDefault()
      event.stopPropagation()
      const step = event.shiftKey ? 1 : Math.max(2, Math.round(size / 60))
      const { dx, dy } = stepBeforeTurn(direction[0] * step, direction[1] * step, quarterTurns)
      setCross(within({ x: here.x + dx, y: here.y + dy }))
    } else if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault()
      onPoint(within(here))
    }
  }
  const shown = cross ?? (started === null ? { x: widthPx / 2, y: heightPx / 2 } : started)
  return (
    <div className={classes.stage} data-zoomed={zoom > 1 || undefined}>
      <svg
        className={classes.surface}
        style={{ width: `${zoom * 100}%`, height: `${zoom * 100}%` }}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={words.surface}
        tabIndex={onPoint === null ? -1 : 0}
        data-measuring={onPoint === null ? undefined : true}
        onPointerDown={press}
        onKeyDown={steer}
      >
        <g ref={picture} transform={turnTransform(widthPx, heightPx, quarterTurns)}>
          <image href={url} width={widthPx} height={heightPx} preserveAspectRatio="none" />
          {lines.map((line) => (
            <Line key={line.id} line={line} size={size} quarterTurns={quarterTurns} />
          ))}
          {started !== null && <Cross at={started} size={size} />}
          {onPoint !== null && <Cross at={shown} size={size} loose />}
        </g>
      </svg>
    </div>
  )
}

function Line({ line, size, quarterTurns }: { line: DrawnLine; size: number; quarterTurns: number }) {
  const { fromX, fromY, toX, toY, label, tone } = line
  const [x, y] = [(fromX + toX) / 2, (fromY + toY) / 2]
  return (
    <g data-tone={tone}>
      <line className={classes.under} x1={fromX} y1={fromY} x2={toX} y2={toY} strokeWidth={size / 130} />
      <line className={classes.line} x1={fromX} y1={fromY} x2={toX} y2={toY} strokeWidth={size / 300} />
      {[
        [fromX, fromY],
        [toX, toY],
      ].map(([cx, cy], i) => (
        <circle key={i === 0 ? 'from' : 'to'} className={classes.end} cx={cx} cy={cy} r={size / 140} />
      ))}
      <text
        className={classes.label}
        x={x}
        y={y}
        fontSize={size / 38}
        strokeWidth={size / 200}
        transform={`rotate(${-90 * quarterTurns} ${x} ${y}) translate(0 ${-size / 60})`}
      >
        {label}
      </text>
    </g>
  )
}

function Cross({ at, size, loose = false }: { at: Point; size: number; loose?: boolean }) {
  const arm = size / 40
  const path = `M${at.x - arm} ${at.y}h${2 * arm}M${at.x} ${at.y - arm}v${2 * arm}`
  return (
    <g data-loose={loose || undefined} className={classes.cross}>
      <path className={classes.under} d={path} strokeWidth={size / 150} />
      <path className={classes.line} d={path} strokeWidth={size / 400} />
    </g>
  )
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}
