import type { BayFacts } from './index.ts'
import { dayMs } from './time.ts'

/** What must be in place before a pour is asked for this long before it. Our judgement. */
const askedAheadMs = dayMs

/** From when the preparations of a pour are asked for: a day before the plan, at the latest when laying begins; or null. */
export function preparedBy({ life, asOf, story }: BayFacts): number | null {
  const planned = life.plannedFor === null ? Number.POSITIVE_INFINITY : life.plannedFor - askedAheadMs
  const from = Math.max(
    Math.min(planned, life.startedAt ?? Number.POSITIVE_INFINITY),
    plannedAt({ story }) ?? 0,
  )
  return from <= asOf ? from : null
}

/** When the bay was put into the plan, or null when the story does not say. */
export function plannedAt({ story }: Pick<BayFacts, 'story'>): number | null {
  const entry = story.entries.find((each) => each.kind === 'bay-planned' && each.subject === story.bay.id)
  return entry?.happenedAt ?? null
}

/** A bay on which nobody laid anything for so long is laid, whether or not its finish was written down. Our judgement. */
const surelyLaidMs = dayMs / 2

/** True once the bay is laid: what should have stopped the pour is then a non-conformance. */
export function isLaid({ life, asOf }: Pick<BayFacts, 'life' | 'asOf'>): boolean {
  return life.t0From === 'finish' || (life.t0 !== null && asOf - life.t0 > surelyLaidMs)
}
