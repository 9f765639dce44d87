import type { KeyboardEvent } from 'react'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { limitText } from '#model/rules/index.ts'
import type { Limit } from '#model/rules/limit.ts'
import type { JudgedTest } from '#model/watch/facts/moisture.ts'
import { bayWords } from '../../../app/words/bay.ts'
import chart from '../../../charts/charts.module.css'
import type { StripPlace } from '../../../charts/time-strip.tsx'
import { TimeStrip } from '../../../charts/time-strip.tsx'
import { type TimeSpan, visiblePart } from '../../../charts/time-view.ts'
import { valueScale } from '../../../charts/value-ticks.ts'
import { numberText } from '../../../parts/number-text.ts'
import { dayText } from '../../../parts/site-time.ts'
import classes from './life-axis.module.css'

const words = bayWords.axis

/** Readings in one unit with their limit: humidity in the screed has the forecast behind it, other units stand alone. */
export interface MoistureScale {
  unit: string
  tests: JudgedTest[]
  limit: Limit | null
}

interface DryingStripProps {
  scale: MoistureScale
  /** Only where the forecast is in the same unit as the readings. */
  forecast: ReadyForecast | null
  view: TimeSpan
  place: StripPlace
  ticksAt: readonly number[]
  now: number
  zone: string
  chosen: string | null
  onChoose: (entry: string) => void
}

const humidityUnit = '% RH'
export const isHumidity = (unit: string) => unit === humidityUnit

/** The screed drying: what is likely, what was read, where the limit is, when it may be reached. */
export function DryingStrip(props: DryingStripProps) {
  const { scale, forecast, view, place, ticksAt, now } = props
  const band = (forecast?.band ?? []).map(({ at, p10, p90 }) => ({ at, low: p10, high: p90 }))
  const values = [
    ...scale.tests.flatMap(({ acceptance }) => acceptance.value ?? []),
    ...band.flatMap(({ low, high }) => [low, high]),
  ]
  const hold = [
    ...(scale.limit === null ? [] : [scale.limit.value]),
    ...(isHumidity(scale.unit) ? [100] : [0]),
  ]
  const axis = valueScale(values, hold, 4)
  if (isHumidity(scale.unit)) {
    axis.high = 100
    axis.ticks = axis.ticks.filter((tick) => tick <= 100)
  }
  const humid = isHumidity(scale.unit)
  return (
    <TimeStrip
      title={humid ? words.drying : words.moisture(scale.unit)}
      view={view}
      place={place}
      height={humid ? 230 : 150}
      scale={axis}
      ticksAt={ticksAt}
      now={now}
      lines={
        forecast === null
          ? []
          : [
              {
                name: words.likely,
                points: forecast.band.map(({ at, p50 }) => ({ at, value: p50 })),
                colour: 'var(--accent)',
                width: 2.25,
              },
            ]
      }
      band={forecast === null ? undefined : { name: words.band, points: band, colour: 'var(--accent)' }}
      levels={
        scale.limit === null
          ? []
          : [
              {
                value: scale.limit.value,
                label: `${words.limit} ${limitText(scale.limit)}`,
                colour: 'var(--stop)',
              },
            ]
      }
      none={forecast === null && scale.tests.length === 0 ? words.noSeries : undefined}
    >
      {(placeOf) => (
        <>
          {humid && scale.tests.length > 0 && place.width > keyRoomPx && <TestKey place={place} />}
          {forecast !== null && humid && (
            <ReadyRange
              {...props}
              forecast={forecast}
              axisLow={axis.low}
              axisHigh={axis.high}
              placeOf={placeOf}
            />
          )}
          {scale.tests.map((test) => (
            <Reading key={test.entry.id} {...props} test={test} placeOf={placeOf} />
          ))}
        </>
      )}
    </TimeStrip>
  )
}

const keyRoomPx = 900

/** What the two marks of a test mean, at the right end of the heading. */
function TestKey({ place }: { place: StripPlace }) {
  const left = place.width - place.right - 250
  return (
    <g>
      <path d={testMark(left, 11, true)} className={classes.readingShape} />
      <text x={left + 12} y={16} className={chart.legend}>
        {words.reading}
      </text>
      <path d={testMark(left + 96, 11, false)} className={classes.invalidShape} />
      <text x={left + 108} y={16} className={chart.legend}>
        {words.invalid}
      </text>
    </g>
  )
}

/** A full square for a test that counts; an empty, crossed one for a test that proves nothing. */
function testMark(x: number, y: number, valid: boolean): string {
  return `M${x - 6} ${y - 6}h12v12h-12z${valid ? '' : `M${x - 6} ${y - 6}l12 12M${x + 6} ${y - 6}l-12 12`}`
}

type PlaceOf = (at: number, value: number) => { x: number; y: number }

interface ReadyRangeProps extends Omit<DryingStripProps, 'forecast'> {
  forecast: ReadyForecast
  axisLow: number
  axisHigh: number
  placeOf: PlaceOf
}

/** From the early to the cautious date, with the likely one between. */
function ReadyRange({ forecast, axisLow, axisHigh, placeOf, view, zone, place }: ReadyRangeProps) {
  const { p10, p50, p90 } = forecast
  if (p50 === null) return null
  const part = visiblePart(Date.parse(p10 ?? p50), p90 === null ? null : Date.parse(p90), view)
  if (part === null) return null
  const top = placeOf(part.from, axisHigh)
  const bottom = placeOf(part.until, axisLow)
  const likely = placeOf(Date.parse(p50), axisHigh)
  const seen = likely.x >= place.gutter && likely.x <= place.width - place.right
  const leftwards = likely.x > place.width - place.right - 150
  return (
    <g pointerEvents="none">
      <rect
        x={top.x}
        y={bottom.y - 10}
        width={Math.max(3, bottom.x - top.x)}
        height={10}
        className={classes.readyRange}
      />
      {seen && (
        <>
          <line x1={likely.x} x2={likely.x} y1={top.y} y2={bottom.y} className={classes.readyLine} />
          <text
            x={likely.x + (leftwards ? -6 : 6)}
            y={top.y + 16}
            textAnchor={leftwards ? 'end' : 'start'}
            className={classes.readyText}
          >
            {words.ready} {dayText(Date.parse(p50), zone)}
          </text>
        </>
      )}
    </g>
  )
}

function Reading({
  test,
  placeOf,
  view,
  zone,
  chosen,
  onChoose,
}: DryingStripProps & { test: JudgedTest; placeOf: PlaceOf }) {
  const { entry, at, acceptance, valid } = test
  if (acceptance.value === null || at < view.from || at > view.until) return null
  const { x, y } = placeOf(at, acceptance.value)
  const label = `${valid ? words.reading : words.invalid}: ${entry.body.point}, ${numberText(acceptance.value, 1)} ${acceptance.unit}, ${dayText(at, zone)}`
  return (
    // biome-ignore lint/a11y/useSemanticElements: a mark in a drawing cannot be an HTML button
    <g
      role="button"
      tabIndex={0}
      aria-label={label}
      aria-pressed={chosen === entry.id}
      className={classes.reading}
      onClick={() => onChoose(entry.id)}
      onKeyDown={(event: KeyboardEvent) => {
        if (event.key !== 'Enter' && event.key !== ' ') return
        event.preventDefault()
        onChoose(entry.id)
      }}
    >
      <title>{label}</title>
      <circle cx={x} cy={y} r={14} fill="transparent" />
      <path d={testMark(x, y, valid)} className={valid ? classes.readingShape : classes.invalidShape} />
    </g>
  )
}
