import { type EffectiveRules, keepsLimit } from '#model/rules/index.ts'
import { type AirLog, airTrace } from './air.ts'
import type { CoverSpan, OpenSpan } from './cover.ts'
import type { Life } from './life.ts'
import { dayMs, hourMs } from './time.ts'
import { lastIndexBy, type Trace } from './trace.ts'

/** Two readings further apart than this leave the temperature between them unknown for curing. Our judgement. */
const coldGapMs = 24 * hourMs

export interface Curing {
  /** Hours under a whole sheet since the finish, until an opening too long to make good. */
  coveredHours: number
  /** Of those, hours below the temperature that counts. */
  coldHours: number
  /** Of those, hours whose temperature nobody read. */
  unknownHours: number
  /** What is shown: warm hours under the sheet. */
  provenHours: number
  /** What it can be at most: all hours that are not shown to be cold. */
  atMostHours: number
  firstCoverAt: number | null
  /** When the curing ended for good: the opening that lasted longer than can be made good, or null. */
  endedAt: number | null
  /** When, if the sheet stays on, the days of the rule are reached; null when it is off or already reached. */
  dueOffAt: number | null
  state: 'enough' | 'short' | 'not known'
}

/**
 * Returns how long the screed was kept damp and warm enough.
 *
 * A sheet counts from the finish on. Hours colder than `cure.coldC` do not count; where nobody measured in the screed, the
 * air of the room stands in. Between two readings at most a day apart the colder one holds; longer gaps are unknown. After
 * an opening longer than `cure.recoverHours` a new sheet no longer makes curing good.
 */
export function curingOf(args: {
  life: Life
  cover: readonly CoverSpan[]
  open: readonly OpenSpan[]
  screed: Trace
  air: AirLog
  rules: EffectiveRules
  asOf: number
}): Curing | null {
  const { life, cover, open, rules, asOf } = args
  if (life.t0 === null) return null
  const t0 = life.t0
  const recoverMs = rules.limits['cure.recoverHours'].value * hourMs
  const tooLong = open.find(({ from, until, off }) => off !== null && (until ?? asOf) - from > recoverMs)
  const lastsUntil = tooLong?.from ?? asOf
  const spans = cover
    .filter(({ whole }) => whole)
    .map(({ from, until }) => ({ from: Math.max(from, t0), until: Math.min(until ?? asOf, lastsUntil) }))
    .filter(({ from, until }) => until > from)
  const temperatures = [args.screed, airTrace(args.air, 'airC')]
  const coldC = rules.limits['cure.coldC']
  let covered = 0
  let cold = 0
  let unknown = 0
  for (const span of spans) {
    covered += span.until - span.from
    const split = splitByWarmth(temperatures, span.from, span.until, (tempC) => keepsLimit(tempC, coldC))
    cold += split.cold
    unknown += split.unknown
  }
  const needed = rules.limits['cure.days'].value * dayMs
  const proven = covered - cold - unknown
  const atMost = covered - cold
  const lying = cover.at(-1)
  const isOn = lying !== undefined && lying.until === null && lying.whole && tooLong === undefined
  const firstWhole = cover.find(({ whole, until }) => whole && (until === null || until > t0))
  return {
    coveredHours: covered / hourMs,
    coldHours: cold / hourMs,
    unknownHours: unknown / hourMs,
    provenHours: proven / hourMs,
    atMostHours: atMost / hourMs,
    firstCoverAt: firstWhole === undefined ? null : Math.max(t0, firstWhole.from),
    endedAt: tooLong?.from ?? null,
    dueOffAt: isOn && atMost < needed ? asOf + (needed - atMost) : null,
    state: proven >= needed ? 'enough' : atMost < needed ? 'short' : 'not known',
  }
}

/** Splits a stretch into cold and unknown time; `standIn` answers where the first trace does not. */
function splitByWarmth(
  [trace, ...standIn]: readonly Trace[],
  from: number,
  until: number,
  warm: (tempC: number) => boolean,
): { cold: number; unknown: number } {
  if (trace === undefined) return { cold: 0, unknown: until - from }
  let cold = 0
  let unknown = 0
  let at = from
  for (let i = lastIndexBy(trace.at, from); at < until; i++) {
    const left = trace.at[i]
    const right = trace.at[i + 1]
    const end = Math.min(until, right ?? until)
    const afterLast = right === undefined && left !== undefined && end - left <= coldGapMs
    const joined = left !== undefined && right !== undefined && right - left <= coldGapMs
    if (afterLast || joined) {
      const warmBothEnds = warm(trace.value[i]!) && (afterLast || warm(trace.value[i + 1]!))
      if (!warmBothEnds) cold += end - at
    } else if (end > at) {
      const other = splitByWarmth(standIn, at, end, warm)
      cold += other.cold
      unknown += other.unknown
    }
    at = end
  }
  return { cold, unknown }
}
