import { useMemo } from 'react'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { bayWords } from '../../../app/words/bay.ts'
import type { StripPlace } from '../../../charts/time-strip.tsx'
import { TimeStrip } from '../../../charts/time-strip.tsx'
import type { TimeSpan } from '../../../charts/time-view.ts'
import { valueScale } from '../../../charts/value-ticks.ts'
import { numberText } from '../../../parts/number-text.ts'
import { type BayReadings, lineOf, type ReadingName } from './readings.ts'

const words = bayWords.axis

interface MeasuredStripProps {
  readings: BayReadings
  view: TimeSpan
  place: StripPlace
  ticksAt: readonly number[]
  now: number
}

/** Air of the room, air outside and the screed itself, with the temperatures that matter. */
export function TemperatureStrip({ facts, readings, ...shared }: MeasuredStripProps & { facts: BayFacts }) {
  const { limits } = facts.rules
  const cold = limits['frost.screedC'].value
  const hot = limits['mix.tempMostC'].value
  const frost = limits['frost.onsetC'].value
  const scale = useMemo(
    () => valueScale(valuesOf(readings, ['air', 'screed', 'outside']), [Math.min(0, frost), cold + 5], 5),
    [readings, cold, frost],
  )
  const levels = [
    { value: frost, label: words.cold(numberText(frost)), colour: 'var(--stop)' },
    { value: cold, label: words.cold(numberText(cold)), colour: 'var(--act)' },
    ...(scale.high >= hot ? [{ value: hot, label: words.cold(numberText(hot)), colour: 'var(--act)' }] : []),
  ]
  const line = useLines(readings, shared)
  const lines = [
    { name: words.outside, points: line('outside'), colour: 'var(--line-strong)', dash: '5 3', width: 1.5 },
    { name: words.air, points: line('air'), colour: 'var(--watch)' },
    { name: words.screed, points: line('screed'), colour: 'var(--ink)', width: 2.25 },
  ].filter(({ points }) => points.length > 0)
  return (
    <TimeStrip
      {...shared}
      title={words.temperature}
      height={190}
      scale={scale}
      lines={lines}
      levels={levels}
      none={lines.length === 0 ? words.noSeries : undefined}
    />
  )
}

export function HumidityStrip({ readings, ...shared }: MeasuredStripProps) {
  const scale = useMemo(() => valueScale(valuesOf(readings, ['rh']), [40, 80], 3), [readings])
  const line = useLines(readings, shared)
  const points = line('rh')
  return (
    <TimeStrip
      {...shared}
      title={words.humidity}
      height={120}
      scale={{ ...scale, high: Math.min(100, scale.high), ticks: scale.ticks.filter((tick) => tick <= 100) }}
      lines={points.length === 0 ? [] : [{ name: words.rh, points, colour: 'var(--watch)' }]}
      none={points.length === 0 ? words.noSeries : undefined}
    />
  )
}

function useLines(readings: BayReadings, { view, place }: Pick<MeasuredStripProps, 'view' | 'place'>) {
  const columns = place.width - place.gutter - place.right
  const drawn = useMemo(() => {
    const span = { from: view.from, until: view.until }
    const of = (name: ReadingName) => lineOf(readings, name, span, columns)
    return { air: of('air'), screed: of('screed'), outside: of('outside'), rh: of('rh') }
  }, [readings, view.from, view.until, columns])
  return (name: ReadingName) => drawn[name]
}

function* valuesOf(readings: BayReadings, names: readonly ReadingName[]): Generator<number> {
  for (const name of names) yield* readings[name].value
}
