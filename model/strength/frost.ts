import { hourMs } from '#model/time.ts'
import { requireInstant, requireNumber } from '../errors.ts'
import { commonRules } from '../rules/common/index.ts'
import { type AgeMethod, agingFactor } from './equivalent-age.ts'
import { ageForStrengthDays, type CementClass, strengthRatio } from './strength-gain.ts'
import { type Interval, instantReached, intervalsOf, type TemperatureReading } from './temperature-series.ts'

export interface FrostQuestion {
  /** Temperatures in the screed; with fewer than two nothing is known. */
  series: readonly TemperatureReading[]
  cementClass: CementClass
  /** Mean strength at 28 days, 3 to 100 [N/mm²]. */
  fcm28MPa: number
  /** Strength from which one frost does no harm; 5 by default [N/mm²]. */
  requiredMPa?: number
  /** The screed counts as freezing at this temperature and below; 0 by default [°C]. */
  onsetC?: number
  /** Factor on the age that reaches the strength, because the law promises too much at an early age; 2 by default. */
  earlyAgeFactor?: number
  /** Law of equivalent age; `fhp` by default, the careful one in the cold. */
  method?: AgeMethod
  /** When water was added. When the series begins later than `maxGapHours` after it, the time between is unknown. */
  laidAt?: string | number
  /** Readings further apart than this leave the time between unknown; 3 by default [h]. */
  maxGapHours?: number
}

export interface FrostAnswer {
  /** From when one frost does no harm; null when that is not reached or not known. Epoch milliseconds. */
  safeAt: number | null
  firstFreezeAt: number | null
  strengthAtFirstFreezeMPa: number | null
  /** The equivalent age that counts as safe, factor included [days at 20 °C]. */
  requiredAgeDays: number
  /** The equivalent age at the end, the first frost or the first gap, whichever comes first [days at 20 °C]. */
  reachedAgeDays: number
  /** Where the first unmeasured stretch begins, when there is one before the question was settled. */
  unknownFrom: number | null
  verdict: 'safe' | 'at risk' | 'frozen early' | 'not known'
}

/**
 * Returns whether a cement screed reached frost-safe strength before it first froze.
 *
 * Strength follows EN 1992-1-1 (3.2) on the equivalent age; the age at which the strength is reached is doubled
 * (`earlyAgeFactor`) before it counts as safe. Hours below 0 °C gain nothing. A gap before the question is settled makes
 * it unknown: nobody knows whether the screed froze in it. A frost seen after such a gap is reported, without a strength.
 *
 * @returns when safe, when first frozen, the strength then, and one of four verdicts: `safe` (reached before any frost),
 * `frozen early`, `at risk` (not frozen and not yet safe), `not known`.
 * @throws InputError when a reading is not usable, or the strength asked for is never reached.
 * @source EN 1992-1-1 3.1.2; threshold EN 13670 8.5; factor 2 and onset are our judgement.
 * @accuracy made for concrete; semi-dry screed gains 20–50 % more slowly at its edges, for which the factor stands.
 * @provenance from memory
 */
export function frostCheck(question: FrostQuestion): FrostAnswer {
  const fcm28MPa = requireNumber('fcm28MPa', question.fcm28MPa, 3, 100, 'N/mm²')
  const requiredMPa = requireNumber(
    'requiredMPa',
    question.requiredMPa ?? commonRules['frost.strengthMPa'].limit.value,
    0.5,
    100,
    'N/mm²',
  )
  const onsetC = requireNumber(
    'onsetC',
    question.onsetC ?? commonRules['frost.onsetC'].limit.value,
    -5,
    3,
    '°C',
  )
  const factor = requireNumber(
    'earlyAgeFactor',
    question.earlyAgeFactor ?? commonRules['frost.earlyAgeFactor'].limit.value,
    1,
    10,
  )
  const requiredAgeDays = factor * ageForStrengthDays(requiredMPa / fcm28MPa, question.cementClass)
  const run = runToFirstFrost(question, onsetC, requiredAgeDays)
  const { safeAt, firstFreezeAt, ageAtFreezeDays } = run
  return {
    safeAt,
    firstFreezeAt,
    strengthAtFirstFreezeMPa:
      ageAtFreezeDays === null ? null : fcm28MPa * strengthRatio(ageAtFreezeDays, question.cementClass),
    requiredAgeDays,
    reachedAgeDays: run.ageDays,
    unknownFrom: safeAt === null ? run.unknownFrom : null,
    verdict: question.series.length < 2 ? 'not known' : verdictOf(run),
  }
}

interface Run {
  safeAt: number | null
  firstFreezeAt: number | null
  ageAtFreezeDays: number | null
  ageDays: number
  unknownFrom: number | null
}

function verdictOf({ safeAt, unknownFrom, firstFreezeAt }: Run): FrostAnswer['verdict'] {
  if (safeAt !== null) return 'safe'
  if (unknownFrom !== null) return 'not known'
  return firstFreezeAt === null ? 'at risk' : 'frozen early'
}

/** Follows the age through the series up to the first frost, or up to the first gap. */
function runToFirstFrost(question: FrostQuestion, onsetC: number, requiredAgeDays: number): Run {
  const method = question.method ?? 'fhp'
  const intervals = intervalsOf(question.series, question.maxGapHours)
  const run: Run = {
    safeAt: null,
    firstFreezeAt: null,
    ageAtFreezeDays: null,
    ageDays: 0,
    unknownFrom: gapBeforeSeries(question, intervals[0]),
  }
  for (const interval of intervals) {
    if (!interval.known) run.unknownFrom ??= interval.from
    const freezeAt = freezeWithin(interval, onsetC)
    if (run.unknownFrom === null) {
      const share =
        freezeAt === null ? 1 : (freezeAt - interval.from) / Math.max(1, interval.until - interval.from)
      const gain = share * gainAboveZeroDays(interval, method)
      if (run.safeAt === null && run.ageDays + gain >= requiredAgeDays) {
        run.safeAt = instantReached(
          { ...interval, until: freezeAt ?? interval.until },
          run.ageDays,
          gain,
          requiredAgeDays,
        )
      }
      run.ageDays += gain
    }
    if (freezeAt !== null) {
      run.firstFreezeAt = freezeAt
      run.ageAtFreezeDays = run.unknownFrom === null ? run.ageDays : null
      break
    }
  }
  return run
}

function gapBeforeSeries(question: FrostQuestion, first: Interval | undefined): number | null {
  if (question.laidAt === undefined || first === undefined) return null
  const laidAt = requireInstant('laidAt', question.laidAt)
  const maxGapHours = question.maxGapHours ?? commonRules['frost.seriesGapHours'].limit.value
  return first.from - laidAt > maxGapHours * hourMs ? laidAt : null
}

/** The age gained while above 0 °C, with the temperature running straight between the readings. */
function gainAboveZeroDays({ startC, endC, hours }: Interval, method: AgeMethod): number {
  const low = Math.min(startC, endC)
  const high = Math.max(startC, endC)
  if (high <= 0) return 0
  const share = low >= 0 ? 1 : high / (high - low)
  const mean = (agingFactor(Math.max(0, low), method) + agingFactor(high, method)) / 2
  return (mean * share * hours) / 24
}

function freezeWithin({ from, until, startC, endC, known }: Interval, onsetC: number): number | null {
  if (startC <= onsetC) return from
  if (endC > onsetC) return null
  return known ? from + ((startC - onsetC) / (startC - endC)) * (until - from) : until
}
