import type { ReactNode } from 'react'
import { Area, CartesianGrid, ComposedChart, Line, ReferenceLine, XAxis, YAxis, ZIndexLayer } from 'recharts'
import { numberText } from '../parts/number-text.ts'
import classes from './charts.module.css'
import type { LinePoint } from './thin.ts'
import { type TimeSpan, xOf } from './time-view.ts'
import type { ValueScale } from './value-ticks.ts'

export interface StripLine {
  name: string
  points: LinePoint[]
  colour: string
  dash?: string
  width?: number
}

export interface StripBand {
  name: string
  points: { at: number; low: number; high: number }[]
  colour: string
}

/** A value that is not to be passed, drawn across. */
export interface StripLevel {
  value: number
  label: string
  colour: string
}

export interface StripPlace {
  /** From the left edge of the drawing to the plot [px]. */
  gutter: number
  /** From the plot to the right edge [px]. */
  right: number
  width: number
}

interface TimeStripProps {
  title: string
  view: TimeSpan
  place: StripPlace
  height: number
  scale: ValueScale
  ticksAt: readonly number[]
  lines: readonly StripLine[]
  band?: StripBand
  levels?: readonly StripLevel[]
  now: number
  /** Said when there is nothing to draw. */
  none?: string
  /** Marks on top, drawn by the caller; gets the place of an instant and a value. */
  children?: (placeOf: (at: number, value: number) => { x: number; y: number }) => ReactNode
}

const headPx = 26
const footPx = 6
/** Above lines and bands, so that marks can be picked. */
const aboveLines = 2000

/** One value axis on the shared axis of time: lines, a band, levels and marks. */
export function TimeStrip(props: TimeStripProps) {
  const { title, view, place, height, scale, ticksAt, lines, band, levels = [], now, none, children } = props
  const plotPx = place.width - place.gutter - place.right
  const heightPx = height - headPx - footPx
  const placeOf = (at: number, value: number) => ({
    x: place.gutter + xOf(at, view, plotPx),
    y: headPx + ((scale.high - value) / (scale.high - scale.low)) * heightPx,
  })
  const nowX = placeOf(now, 0).x
  return (
    <ComposedChart
      width={place.width}
      height={height}
      margin={{ top: headPx, right: place.right, bottom: footPx, left: 0 }}
      accessibilityLayer={false}
      className={classes.svg}
      title={title}
    >
      <CartesianGrid vertical={false} stroke="var(--line)" />
      <XAxis
        dataKey="at"
        type="number"
        scale="linear"
        domain={[view.from, view.until]}
        ticks={[...ticksAt]}
        allowDataOverflow
        hide
      />
      <YAxis
        type="number"
        width={place.gutter}
        domain={[scale.low, scale.high]}
        ticks={scale.ticks}
        allowDataOverflow
        interval={0}
        axisLine={{ stroke: 'var(--line-strong)' }}
        tickLine={false}
        tickFormatter={(value: number) => numberText(value)}
        tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
      />
      {ticksAt.map((at) => (
        <ReferenceLine key={at} x={at} stroke="var(--line)" />
      ))}
      {band !== undefined && (
        <Area
          data={band.points}
          dataKey={({ low, high }: { low: number; high: number }) => [low, high]}
          stroke="none"
          fill={band.colour}
          fillOpacity={0.22}
          isAnimationActive={false}
          activeDot={false}
        />
      )}
      {levels.map(({ value, label, colour }) => (
        <ReferenceLine key={label} y={value} stroke={colour} strokeWidth={1.5} strokeDasharray="6 4" />
      ))}
      {lines.map(({ name, points, colour, dash, width = 1.75 }) => (
        <Line
          key={name}
          name={name}
          data={points}
          dataKey="value"
          stroke={colour}
          strokeWidth={width}
          strokeDasharray={dash}
          dot={points.length < 60 ? { r: 2, fill: colour, strokeWidth: 0 } : false}
          activeDot={false}
          isAnimationActive={false}
          connectNulls={false}
        />
      ))}
      <ZIndexLayer zIndex={aboveLines}>
        {nowX >= place.gutter && nowX <= place.width - place.right && (
          <line x1={nowX} x2={nowX} y1={headPx} y2={height} className={classes.now} />
        )}
        {levels.map(({ value, label, colour }) => {
          const { y } = placeOf(view.from, value)
          if (y < headPx - 1 || y > height) return null
          return (
            <text
              key={label}
              x={place.width - place.right - 6}
              y={y - 5}
              textAnchor="end"
              className={classes.levelText}
              fill={colour}
            >
              {label}
            </text>
          )
        })}
        <StripHead title={title} lines={lines} band={band} left={place.gutter} />
        {none !== undefined && (
          <text x={place.gutter + 12} y={headPx + heightPx * 0.3} className={classes.none}>
            {none}
          </text>
        )}
        {children?.(placeOf)}
      </ZIndexLayer>
    </ComposedChart>
  )
}

interface StripHeadProps extends Pick<TimeStripProps, 'title' | 'lines' | 'band'> {
  left: number
}

/** The title of a strip and the names of its lines, inside the drawing, so that a saved picture has them. */
function StripHead({ title, lines, band, left }: StripHeadProps) {
  const keys = [
    ...lines.map(({ name, colour, dash }) => ({ name, colour, dash, band: false })),
    ...(band === undefined ? [] : [{ name: band.name, colour: band.colour, dash: undefined, band: true }]),
  ]
  let x = left + 10 + title.length * 7.4 + 24
  return (
    <g>
      <text x={left + 10} y={16} className={classes.title}>
        {title}
      </text>
      {keys.map(({ name, colour, dash, band: filled }) => {
        const at = x
        x += 30 + name.length * 6.8 + 18
        return (
          <g key={name}>
            {filled ? (
              <rect x={at} y={5} width={22} height={12} fill={colour} fillOpacity={0.3} />
            ) : (
              <line
                x1={at}
                x2={at + 22}
                y1={11}
                y2={11}
                stroke={colour}
                strokeWidth={2.25}
                strokeDasharray={dash}
              />
            )}
            <text x={at + 28} y={16} className={classes.legend}>
              {name}
            </text>
          </g>
        )
      })}
    </g>
  )
}
