import type { ReadyForecast } from '#model/drying/forecast-shape.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import type { TimeSpan } from '../../../charts/time-view.ts'

const dayMs = 86_400_000

/** The stretches of time that one looks at. `toCovering` ends with the covering, or with the cautious date. */
export interface Spans {
  all: TimeSpan
  firstWeek: TimeSpan | null
  toCovering: TimeSpan | null
}

/** Returns the stretches of a bay's life; null when nothing has happened yet. */
export function spansOf(facts: BayFacts, forecast: ReadyForecast | null): Spans | null {
  const { story, life, asOf } = facts
  const own = story.entries.filter(({ subject, withdrawn }) => subject === story.bay.id && !withdrawn)
  const happened = own.filter(({ kind }) => kind !== 'bay-planned').map(({ happenedAt }) => happenedAt)
  const firstLogged = story.series.map(({ at }) => at[0]).filter((at) => at !== undefined)
  const begins = life.startedAt ?? life.t0 ?? (happened.length === 0 ? null : Math.min(...happened))
  if (begins === null) return null
  const from = Math.min(begins, ...firstLogged.filter((at) => at > begins - dayMs)) - dayMs / 2
  const readyAt = forecast?.p90 ?? forecast?.p50 ?? null
  const bandEnd = forecast?.band.at(-1)?.at ?? asOf
  const likelyEnd = readyAt === null ? bandEnd : Math.min(bandEnd, Date.parse(readyAt) + 7 * dayMs)
  const end = Math.max(asOf, life.coveredAt ?? likelyEnd)
  const all = { from, until: end + Math.max(dayMs / 2, 0.02 * (end - from)) }
  const start = life.t0 ?? begins
  const coveredBy = life.coveredAt ?? (readyAt === null ? null : Date.parse(readyAt))
  return {
    all,
    firstWeek: { from, until: Math.max(begins, start) + 7.5 * dayMs },
    toCovering: coveredBy === null || coveredBy <= start ? null : { from, until: coveredBy + 2 * dayMs },
  }
}
