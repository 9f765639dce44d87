import type { Evidence } from '../alert.ts'
import { minutesBetween } from '../facts/batches.ts'
import type { BayFacts } from '../facts/index.ts'
import { minuteMs } from '../facts/time.ts'
import { type AlertRule, type Raised, shows } from '../rule.ts'

export const batchAge: AlertRule = {
  id: 'A13',
  family: 'mixing',
  title: 'Batch too old to lay',
  limits: ['mix.workingLifeMinutes', 'mix.workingLifeWatchPercent'],
  source: 'BS 8204-1: no re-tempering (quoted second-hand)',
  raise: (facts) => {
    const watchShare = facts.rules.limits['mix.workingLifeWatchPercent'].value / 100
    const aged = agedMixes(facts).filter(({ age, minutes }) => age > watchShare * minutes)
    const tooOld = ({ age, minutes }: AgedMix) => age > minutes
    const waiting = aged.filter(({ laidAt }) => laidAt === null)
    const laidLate = aged.filter((mix) => mix.laidAt !== null && tooOld(mix))
    const laidJust = aged.filter((mix) => mix.laidAt !== null && !tooOld(mix))
    return [
      ...waiting.map(
        (mix): Raised => ({
          severity: tooOld(mix) ? 'stop' : 'watch',
          since: watchedFrom(mix, facts),
          gradedAt: mix.madeAt + (tooOld(mix) ? 1 : watchShare) * mix.minutes * minuteMs,
          until: null,
          evidence: ageEvidence(mix),
          whatToDo: 'Lay it within its time or discard it. Never wet it again.',
        }),
      ),
      ...together(facts, laidLate, {
        severity: 'stop',
        until: null,
        whatToDo: 'Mark where it lies on the plan and test there. Never wet a batch again.',
      }),
      ...together(facts, laidJust, {
        severity: 'watch',
        until: laidJust.at(-1)?.laidAt ?? null,
        whatToDo: 'It was laid in time, but only just: mix less at once.',
      }),
    ]
  },
}

/** Batches laid with the same fault are one thing to answer. */
function together(
  facts: BayFacts,
  mixes: readonly AgedMix[],
  rest: Pick<Raised, 'severity' | 'until' | 'whatToDo'>,
): Raised[] {
  const first = mixes[0]
  if (first === undefined) return []
  return [
    {
      ...rest,
      since: watchedFrom(first, facts),
      gradedAt: mixes.at(-1)!.laidAt ?? watchedFrom(first, facts),
      evidence: mixes.flatMap(ageEvidence),
    },
  ]
}

/** When a batch came near the end of its time. */
function watchedFrom({ madeAt, minutes }: AgedMix, { rules }: BayFacts): number {
  return madeAt + (rules.limits['mix.workingLifeWatchPercent'].value / 100) * minutes * minuteMs
}

interface AgedMix {
  entry: string
  name: string
  madeAt: number
  /** Null while it waits. */
  laidAt: number | null
  /** When it was laid, or now [min]. */
  age: number
  minutes: number
  because: string
}

/**
 * Batches and loads with their age. Once the bay is finished, one without a laying time was laid at some time that nobody
 * wrote down, and nothing is said of it.
 */
function agedMixes({ batches, loads, asOf, life }: BayFacts): AgedMix[] {
  const finishedAt = life.finish?.happenedAt ?? Number.POSITIVE_INFINITY
  const mixed = batches.map(({ entry, number, mixedAt, laidAt, life: { minutes, because } }) => ({
    entry: entry.id as string,
    name: `Batch ${number}`,
    madeAt: mixedAt,
    laidAt,
    minutes,
    because,
  }))
  const loaded = loads.flatMap(({ entry, batchedAt, life: given }) =>
    given === null
      ? []
      : [
          {
            entry: entry.id as string,
            name: `Ticket ${entry.body.ticket}`,
            madeAt: batchedAt,
            laidAt: null,
            ...given,
          },
        ],
  )
  return [...mixed, ...loaded]
    .filter(({ laidAt }) => laidAt !== null || asOf < finishedAt)
    .map((mix) => ({ ...mix, age: minutesBetween(mix.madeAt, mix.laidAt ?? asOf) }))
}

function ageEvidence({ entry, name, laidAt, age, because }: AgedMix): Evidence[] {
  return [
    shows(entry, `${name}: age ${laidAt === null ? 'now' : 'when laid'}`, age, 'min', laidAt),
    shows(entry, `${name}: working life`, because),
  ]
}
