import type { StoryEntryOf } from '#model/record/entry.ts'
import { type HoldPoint, holdPoints, type Role } from '#model/record/people.ts'
import { type BayStory, entriesOf, storyAsOf } from '#model/record/story.ts'
import type { EffectiveRules } from '#model/rules/index.ts'
import type { Provenance } from '#model/rules/limit.ts'
import { type BayFacts, factsOf } from '#model/watch/facts/index.ts'
import { daysBetween, rounded } from '#model/watch/facts/time.ts'
import { type HoldRule, holdOrder, holdRules, type Passing } from './points.ts'

export type HoldState = 'released' | 'waived' | 'held' | 'open' | 'not yet due' | 'does not apply'

/** Something odd about how a point was let go; it refuses nothing and is shown to whoever reads the chain. */
export interface HoldFinding {
  what: string
  entries: string[]
}

/** Work that went on; `held` when somebody had said no, and not only nobody had looked. */
export interface Passed extends Passing {
  held: boolean
}

/** One point of the chain as it stands. */
export interface HoldLink {
  point: HoldPoint
  state: HoldState
  /** In words, why it stands like this. */
  because: string
  /** The person who decided last, when it was, what was seen, and the entry that says so. */
  by: string | null
  at: number | null
  saw: string | null
  decision: string | null
  /** From when somebody is to look [epoch ms]. */
  dueAt: number | null
  /** Entries that bear on it, oldest first. */
  evidence: string[]
  holdsBack: string
  /** Entries of work that went on while it was not let go, oldest first. */
  passedBy: Passed[]
  findings: HoldFinding[]
  mayRelease: readonly Role[]
  source: string
  provenance: Provenance
}

type Decision = {
  entry: string
  person: string
  at: number
  state: 'released' | 'waived' | 'held'
  saw: string
}

/**
 * Returns the hold points of a bay in the order of the job, each with how it stands, who let it go, what bears on it and
 * what went past it.
 *
 * A point stands as the last decision about it says; without one it is open as soon as somebody can look, and not yet due
 * before. Nothing that happened is hidden: work that went on while a point was not let go is listed with it, also when it
 * was let go later.
 *
 * @param asOf epoch milliseconds; the story is cut there.
 * @param rules the limits in force; they say on which day a point falls due.
 * @source practice of inspection and test plans; each point names its own source.
 * @provenance common practice
 */
export function holdChainOf(story: BayStory, asOf: number, rules: EffectiveRules): HoldLink[] {
  return holdChainFrom(factsOf(storyAsOf(story, asOf), asOf, rules))
}

/** The chain from facts that were already read. */
export function holdChainFrom(facts: BayFacts): HoldLink[] {
  const chosen = facts.story.project.body.holdPoints?.map(({ point }) => point)
  return holdOrder.map((point) => linkOf(point, chosen, facts))
}

function linkOf(point: HoldPoint, chosen: readonly HoldPoint[] | undefined, facts: BayFacts): HoldLink {
  const rule = holdRules[point]
  const { holdsBack, mayRelease, source, provenance } = rule
  const unchosen = chosen !== undefined && !chosen.includes(point)
  const notFor = unchosen ? 'Not chosen for this project.' : rule.notFor(facts)
  const evidence = rule.evidence.flatMap((kind) => entriesOf(facts.story, kind)).sort(byTime)
  const decisions = decisionsOn(point, facts.story)
  const last = decisions.at(-1)
  const dueAt = dueOf(rule, facts, evidence[0]?.happenedAt)
  const passedBy = notFor === null ? wentPast(rule.passing(facts), decisions) : []
  const common = {
    point,
    dueAt,
    evidence: evidence.map(({ id }) => id as string),
    holdsBack,
    passedBy,
    mayRelease,
    source,
    provenance,
  }
  if (notFor !== null || last === undefined) {
    const due = (dueAt !== null && dueAt <= facts.asOf) || passedBy.length > 0
    const state = notFor !== null ? 'does not apply' : due ? 'open' : 'not yet due'
    const because =
      notFor ??
      (due
        ? 'Nobody has let it go.'
        : dueAt === null
          ? 'Nothing to look at yet.'
          : 'It is not time to look yet.')
    return { ...common, state, because, by: null, at: null, saw: null, decision: null, findings: [] }
  }
  return {
    ...common,
    state: last.state,
    because: { released: 'Let go.', waived: 'Let go without being met.', held: 'Somebody said no.' }[
      last.state
    ],
    by: last.person,
    at: last.at,
    saw: last.saw,
    decision: last.entry,
    findings: last.state === 'held' ? [] : findingsOf(point, rule, last, facts),
  }
}

/** The decisions about a point, oldest first. A decision on the covering is a decision on the release. */
function decisionsOn(point: HoldPoint, story: BayStory): Decision[] {
  const noted = entriesOf(story, 'hold-point-released')
    .filter(({ body }) => body.point === point)
    .map(
      ({ id, person, happenedAt, body }): Decision => ({
        entry: id,
        person,
        at: happenedAt,
        state: body.decision,
        saw: body.saw,
      }),
    )
  const decided = point === 'release' ? entriesOf(story, 'bay-decided').map(decisionOnCovering) : []
  return [...noted, ...decided].sort((a, b) => a.at - b.at)
}

const decisionStates = { accepted: 'released', waived: 'waived', refused: 'held' } as const

function decisionOnCovering({ id, person, happenedAt, body }: StoryEntryOf<'bay-decided'>): Decision {
  const reasons = (body.reasons ?? []).map(({ reason }) => reason)
  const saw = body.ownReading ?? reasons.join(' ')
  return { entry: id, person, at: happenedAt, state: decisionStates[body.decision], saw }
}

function dueOf(rule: HoldRule, facts: BayFacts, firstEvidence: number | undefined): number | null {
  const due = rule.dueAt(facts)
  const early = rule.dueWithEvidence ? firstEvidence : undefined
  const instants = [due, early ?? null].filter((at) => at !== null)
  return instants.length === 0 ? null : Math.min(...instants)
}

/** The work during which the point was open or held. */
function wentPast(passing: readonly Passing[], decisions: readonly Decision[]): Passed[] {
  return passing
    .flatMap((work): Passed[] => {
      const then = decisions.findLast((decision) => decision.at <= work.at)
      if (then === undefined) return [{ ...work, held: false }]
      return then.state === 'held' ? [{ ...work, held: true }] : []
    })
    .sort((a, b) => a.at - b.at)
}

function findingsOf(point: HoldPoint, rule: HoldRule, last: Decision, facts: BayFacts): HoldFinding[] {
  const { story } = facts
  const before = ({ happenedAt }: { happenedAt: number }) => happenedAt <= last.at
  const findings: HoldFinding[] = []
  const own = rule.doneBy
    .flatMap((kind) => entriesOf(story, kind))
    .filter((entry) => before(entry) && entry.person === last.person)
  if (own.length > 0) {
    findings.push({
      what: 'The same person wrote down the work and let it go.',
      entries: [last.entry, own.at(-1)!.id],
    })
  }
  if (last.state !== 'released' || point === 'release') return findings
  if (!rule.evidence.some((kind) => entriesOf(story, kind).some(before))) {
    findings.push({ what: 'Let go with nothing in the record that shows it.', entries: [last.entry] })
  }
  const due = rule.dueWithEvidence ? null : rule.dueAt(facts)
  if (due !== null && last.at < due) {
    const days = rounded(daysBetween(last.at, due), 1)
    findings.push({ what: `Let go ${days} days before its time.`, entries: [last.entry] })
  }
  return findings
}

/** True while the point keeps waiting what it holds back. */
export function holds({ state }: Pick<HoldLink, 'state'>): boolean {
  return state === 'open' || state === 'held' || state === 'not yet due'
}

/** The points before the release to cover that nobody has let go: while one stands, a bay cannot be accepted. */
export function standsAgainstRelease(chain: readonly HoldLink[]): HoldLink[] {
  return chain.filter((link) => link.point !== 'release' && holds(link))
}

/** "Soundness (open)": a point as it stands, for a sentence. */
export function linkText({ point, state }: Pick<HoldLink, 'point' | 'state'>): string {
  return `${holdPoints[point]} (${state})`
}

function byTime(a: { happenedAt: number }, b: { happenedAt: number }): number {
  return a.happenedAt - b.happenedAt
}
