import { holdRules } from '#model/hold/index.ts'
import type { StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { type HoldPoint, holdPoints } from '#model/record/people.ts'

/** An entry that would check somebody's work, as it is about to be written. */
export interface Checking {
  kind: string
  person: string
  body: Record<string, unknown>
}

/** A fact about the bay, its zone or the same append, with everybody who wrote a version of it. */
export interface Made {
  id: string
  kind: string
  writers: readonly string[]
  body: Record<string, unknown>
}

/** Returns the facts of a story that stand, with their writers. */
export function madeFrom(entries: readonly StoryEntry[]): Made[] {
  return entries
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ id, kind, versions, body }) => ({
      id,
      kind,
      writers: versions.filter((version) => version.kind !== 'entry-withdrawn').map(({ person }) => person),
      body: body as Record<string, unknown>,
    }))
}

/** The tests whose writer may not accept the bay: who measured it dry does not declare it dry. */
const testsOfRelease: readonly KindName[] = ['moisture-read', 'soundness-tested']

/**
 * The kinds whose writer may not let a point go. Writing down that a bay was finished is not the work that the curing
 * points judge: that stays a finding beside the point and is not refused.
 */
export function judgedKinds(point: HoldPoint): readonly KindName[] {
  if (point === 'release') return testsOfRelease
  return holdRules[point].doneBy.filter((kind) => kind !== 'bay-finished')
}

/**
 * Returns why the person who made a record may not be the one who checks it, as a sentence; null when nothing speaks
 * against it. Saying no (a hold, a refusal) is never refused, and neither is writing down that somebody ordered the
 * covering before readiness.
 * @param made the facts of the bay and its zone
 * @provenance our judgement, after the rule of four eyes
 */
export function makerProblem({ kind, person, body }: Checking, made: readonly Made[]): string | null {
  if (kind === 'hold-point-released' && body.decision !== 'held') return letsGoOwn(person, body, made)
  if (kind === 'bay-decided' && body.decision === 'accepted') {
    return wroteAny(person, testsOfRelease, made)
      ? 'Whoever wrote down a moisture or soundness test of this bay cannot accept it for covering. Let the flooring contractor or another quality manager decide.'
      : null
  }
  return kind === 'nonconformance-closed' ? closesOwn(person, body, made) : null
}

function letsGoOwn(person: string, body: Record<string, unknown>, made: readonly Made[]): string | null {
  const point = body.point as HoldPoint
  if (!Object.hasOwn(holdPoints, point) || !wroteAny(person, judgedKinds(point), made)) return null
  const name = holdPoints[point]
  return `Whoever wrote down what the hold point “${name}” judges cannot let it go. Let another person look and decide.`
}

function closesOwn(person: string, body: Record<string, unknown>, made: readonly Made[]): string | null {
  const raised = made.find(({ kind, id }) => kind === 'nonconformance-raised' && id === body.raised)
  if (raised === undefined) return null
  const { owner } = raised.body
  if (owner === person) {
    return 'The owner of a non-conformance cannot close it. Let another quality manager look at what was done.'
  }
  if (owner !== undefined || !raised.writers.includes(person)) return null
  return 'Whoever raised a non-conformance that names no owner cannot close it alone. Name the person who puts it right as its owner, or let another quality manager close it.'
}

function wroteAny(person: string, kinds: readonly KindName[], made: readonly Made[]): boolean {
  return made.some(
    ({ kind, writers }) => (kinds as readonly string[]).includes(kind) && writers.includes(person),
  )
}
