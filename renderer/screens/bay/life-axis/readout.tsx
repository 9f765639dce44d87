import type { KeyboardEvent } from 'react'
import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import { bayWords } from '../../../app/words/bay.ts'
import { nearestIndex } from '../../../charts/thin.ts'
import type { TimeSpan } from '../../../charts/time-view.ts'
import { numberText } from '../../../parts/number-text.ts'
import { momentText } from '../../../parts/site-time.ts'
import classes from './life-axis.module.css'
import { type BayReadings, type ReadingName, readingAt } from './readings.ts'

const words = bayWords.axis

interface ReadoutProps {
  cursor: number | null
  view: TimeSpan
  readings: BayReadings
  forecast: ReadyForecast | null
  zone: string
  t0: number | null
  onCursor: (at: number | null) => void
}

const quantities: [ReadingName, string, string][] = [
  ['air', words.air, '°C'],
  ['screed', words.screed, '°C'],
  ['outside', words.outside, '°C'],
  ['rh', words.rh, '%'],
]
const dayMs = 86_400_000

/** The numbers under the cursor, as read and not as drawn. Arrow keys move the cursor. */
export function Readout({ cursor, view, readings, forecast, zone, t0, onCursor }: ReadoutProps) {
  const values = cursor === null ? [] : valuesAt(cursor, readings, forecast)
  const when = cursor === null ? null : momentOf(cursor, zone, t0)
  const text =
    when === null ? words.how : [when, ...values.map(({ name, value }) => `${name} ${value}`)].join(', ')
  const step = (view.until - view.from) / 100
  const onKeyDown = (event: KeyboardEvent) => {
    const by = { ArrowLeft: -1, ArrowRight: 1, PageDown: -10, PageUp: 10 }[event.key]
    const now = cursor ?? (view.from + view.until) / 2
    if (by !== undefined) onCursor(Math.min(view.until, Math.max(view.from, now + by * step)))
    else if (event.key === 'Home') onCursor(view.from)
    else if (event.key === 'End') onCursor(view.until)
    else if (event.key === 'Escape') onCursor(null)
    else return
    event.preventDefault()
  }
  return (
    <div
      className={classes.readout}
      role="slider"
      tabIndex={0}
      aria-label={words.cursor}
      aria-valuemin={Math.round(view.from)}
      aria-valuemax={Math.round(view.until)}
      aria-valuenow={Math.round(cursor ?? view.from)}
      aria-valuetext={text}
      onKeyDown={onKeyDown}
    >
      {when === null ? (
        <span className={classes.how}>{words.how}</span>
      ) : (
        <>
          <strong>{when}</strong>
          {values.map(({ name, value }) => (
            <span key={name}>
              <span className={classes.how}>{name}</span> <strong>{value}</strong>
            </span>
          ))}
        </>
      )}
    </div>
  )
}

function momentOf(at: number, zone: string, t0: number | null): string {
  const moment = momentText(at, zone)
  return t0 === null || at < t0 ? moment : `${moment}, ${words.day(Math.floor((at - t0) / dayMs))}`
}

function valuesAt(at: number, readings: BayReadings, forecast: ReadyForecast | null) {
  const measured = quantities.flatMap(([name, word, unit]) => {
    const value = readingAt(readings, name, at)
    const label = name === 'rh' ? words.humidity.replace(', %', '') : word
    return value === null ? [] : [{ name: label, value: `${numberText(value, 1)} ${unit}` }]
  })
  const i = nearestIndex(forecast?.band.map((point) => point.at) ?? [], at, 2 * dayMs)
  const point = i < 0 ? undefined : forecast?.band[i]
  if (point === undefined) return measured
  const { p10, p50, p90 } = point
  const value = `${numberText(p50, 0)} % (${numberText(p10, 0)} to ${numberText(p90, 0)})`
  return [...measured, { name: words.drying.split(':')[0]!, value }]
}
