import { dayMs, hourMs } from '#model/time.ts'
import { InputError, requireInstant } from '../errors.ts'
import type { EffectiveRules } from '../rules/effective.ts'
import type { Limit } from '../rules/limit.ts'
import type { Screed } from '../rules/words.ts'
import { maturityGainedCh } from './maturity.ts'
import { type Interval, instantReached, intervalsOf, type TemperatureReading } from './temperature-series.ts'

export const trafficKinds = ['foot', 'boards', 'wheels', 'point'] as const
/** Foot; site traffic over boards; wheels and stacks over boards; loads standing without boards. */
export type TrafficKind = (typeof trafficKinds)[number]

export interface TrafficPermission {
  /** From when it may go on the bay; null while the temperatures have not shown it. Epoch milliseconds. */
  from: number | null
  /** The days of the rule are over at this instant. Epoch milliseconds. */
  daysOverAt: number
  /** The measured temperatures prove the maturity of the rule at this instant; null when they do not. Epoch milliseconds. */
  matureAt: number | null
  state: 'from this instant' | 'not yet mature' | 'not known'
  because: string
  limits: { days: Limit; maturityCh: Limit | null }
}

export interface TrafficAnswer extends Record<TrafficKind, TrafficPermission> {
  /** Maturity that the measured hours prove; unmeasured hours count as nothing [°C·h]. */
  provenCh: number
  unknownHours: number
}

interface TrafficQuestion {
  /** Temperatures in the screed; may be empty when nobody measured. */
  series: readonly TemperatureReading[]
  /** When the bay was finished. */
  laidAt: string | number
  rules: EffectiveRules
  /** Calcium sulfate screed does not gain strength by cement maturity, so for it only the days count. */
  screed?: Screed
}

const datumC = -10

/**
 * Returns what may go on the bay and from when: the later of the days of the rule and the instant at which the measured
 * temperatures prove its maturity.
 *
 * Hours that nobody measured count as nothing, so a gap can only delay a permission. Without temperatures nothing is known
 * about a cement screed, and nothing is permitted. Days are spans of 24 hours from laying.
 *
 * @throws InputError when a reading or instant is not usable.
 * @source days and maturities of the rules in force; Nurse-Saul maturity with datum −10 °C.
 * @provenance as each limit says
 */
export function trafficGate({
  series,
  laidAt,
  rules,
  screed = 'cement-sand',
}: TrafficQuestion): TrafficAnswer {
  if (rules === undefined)
    throw new InputError('rules', 'rules is missing; pass effectiveRules(…) of the project.')
  const laid = requireInstant('laidAt', laidAt)
  const maxGapHours = rules.limits['frost.seriesGapHours'].value
  const intervals = series.length < 2 ? [] : sinceLaying(intervalsOf(series, maxGapHours), laid)
  const unmeasuredAtStart = Math.max(0, ((intervals[0]?.from ?? laid) - laid) / hourMs)
  const unknownHours = intervals.reduce(
    (sum, { known, hours }) => (known ? sum : sum + hours),
    unmeasuredAtStart,
  )
  const provenCh = intervals.reduce((sum, each) => sum + (each.known ? maturityGainedCh(each, datumC) : 0), 0)
  const needsMaturity = screed !== 'calcium sulfate'
  const permission = (kind: TrafficKind): TrafficPermission => {
    const days = rules.limits[`traffic.${kind}Days`]
    const maturity = needsMaturity ? rules.limits[`traffic.${kind}MaturityCh`] : null
    const daysOverAt = laid + days.value * dayMs
    const matureAt = maturity === null ? null : instantMature(intervals, maturity.value)
    const limits = { days, maturityCh: maturity }
    if (maturity === null || matureAt !== null) {
      const from = Math.max(daysOverAt, matureAt ?? daysOverAt)
      const because =
        matureAt !== null && matureAt > daysOverAt
          ? 'The maturity was reached after the days.'
          : 'The days of the rule decide.'
      return { from, daysOverAt, matureAt, state: 'from this instant', because, limits }
    }
    const missing = intervals.length === 0 || unknownHours > 0
    return {
      from: null,
      daysOverAt,
      matureAt,
      state: missing ? 'not known' : 'not yet mature',
      because: becauseOf(intervals.length, provenCh, unknownHours, maturity.value),
      limits,
    }
  }
  return {
    foot: permission('foot'),
    boards: permission('boards'),
    wheels: permission('wheels'),
    point: permission('point'),
    provenCh,
    unknownHours,
  }
}

function becauseOf(intervals: number, provenCh: number, unknownHours: number, neededCh: number): string {
  if (intervals === 0) return 'No temperatures in the screed were recorded.'
  const reached = `${Math.round(provenCh)} of ${neededCh} °C·h are proven`
  return unknownHours > 0 ? `${reached}; ${Math.round(unknownHours)} h were not measured.` : `${reached}.`
}

/** The intervals after laying; one that straddles it is cut there. */
function sinceLaying(intervals: readonly Interval[], laid: number): Interval[] {
  return intervals
    .filter(({ until }) => until > laid)
    .map((interval) => {
      if (interval.from >= laid) return interval
      const share = (laid - interval.from) / (interval.until - interval.from)
      const startC = interval.startC + share * (interval.endC - interval.startC)
      return { ...interval, from: laid, startC, hours: (interval.until - laid) / hourMs }
    })
}

function instantMature(intervals: readonly Interval[], neededCh: number): number | null {
  let total = 0
  for (const interval of intervals) {
    const gain = interval.known ? maturityGainedCh(interval, datumC) : 0
    if (total + gain >= neededCh) return instantReached(interval, total, gain, neededCh)
    total += gain
  }
  return null
}
