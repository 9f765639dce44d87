import type { StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { type HoldPoint, holdPoints, type Role } from '#model/record/people.ts'
import { entriesOf } from '#model/record/story.ts'
import type { Provenance } from '#model/rules/limit.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { preparedBy } from '#model/watch/facts/pour.ts'
import { dayMs } from '#model/watch/facts/time.ts'

/** Something that went on, and from when: work that a hold point keeps waiting. */
export interface Passing {
  entry: string
  at: number
}

/** One hold point of the job: when it counts, what waits for it, what shows that it can be let go, and who may do so. */
export interface HoldRule {
  /** Null when it counts for this bay, else why not. */
  notFor: (facts: BayFacts) => string | null
  /** In words, what has to wait. */
  holdsBack: string
  /** From when somebody is to look; null while nobody can know. */
  dueAt: (facts: BayFacts) => number | null
  /** The kinds of entry that bear on it. */
  evidence: readonly KindName[]
  /** It can be let go as soon as there is evidence, however early. */
  dueWithEvidence: boolean
  /** The kinds of entry whose writer did the work, and so may not let it go. */
  doneBy: readonly KindName[]
  /** What went on that should have waited. */
  passing: (facts: BayFacts) => Passing[]
  mayRelease: readonly Role[]
  source: string
  provenance: Provenance
}

const practice = { source: 'Hold points of screed work', provenance: 'common practice' } as const
const always = () => null
const heatedOnly = ({ story }: BayFacts) => (story.zone.body.heated ? null : 'The floor is not heated.')
const keptDamp = ({ life }: BayFacts) =>
  life.cementBound ? null : 'Calcium sulfate screed is not kept under a sheet for days.'

/** The first batch, lift or load, and the finish: whatever tells that laying went on. */
function laying({ story }: BayFacts): Passing[] {
  return [
    ...entriesOf(story, 'batch-mixed').map(({ id, happenedAt }) => ({ entry: id, at: happenedAt })),
    ...entriesOf(story, 'lift-laid').map(({ id, body }) => ({ entry: id, at: Date.parse(body.startedAt) })),
    ...entriesOf(story, 'bay-finished').map(({ id, body }) => ({
      entry: id,
      at: Date.parse(body.startedAt),
    })),
  ]
}

function endOfCuring({ story }: BayFacts): Passing[] {
  return entriesOf(story, 'sheet-off')
    .filter(({ body }) => body.why === 'end of curing')
    .map(passed)
}

const trafficOf = ({ traffic, life }: BayFacts, kind?: 'point or wheel'): Passing[] =>
  traffic
    .filter((event) => (kind === undefined || event.kind === kind) && life.t0 !== null && event.at >= life.t0)
    .map(({ entry, at }) => ({ entry: entry.id, at }))

const covering = ({ story }: BayFacts): Passing[] => entriesOf(story, 'covering-laid').map(passed)

function moistureTests({ story }: BayFacts): Passing[] {
  return entriesOf(story, 'moisture-read')
    .filter(({ body }) => body.method !== 'electrical survey')
    .map(({ id, happenedAt, body }) => ({
      entry: id,
      at: body.setAt === undefined ? happenedAt : Date.parse(body.setAt),
    }))
}

function passed({ id, happenedAt }: StoryEntry): Passing {
  return { entry: id, at: happenedAt }
}

const daysAfterFinish = ({ life }: BayFacts, days: number) =>
  life.t0 === null ? null : life.t0 + days * dayMs

function dryingFrom({ life, open }: BayFacts): number | null {
  if (!life.cementBound) return life.t0
  const last = open.at(-1)
  return last !== undefined && last.until === null && last.off !== null ? last.from : null
}

const beforeLaying = {
  holdsBack: 'Laying: the first batch or lift',
  dueAt: preparedBy,
  dueWithEvidence: true,
  passing: laying,
  mayRelease: ['supervisor', 'quality manager'],
} as const
const beforeCovering = {
  holdsBack: 'Covering',
  dueWithEvidence: true,
  passing: covering,
} as const

/**
 * The chain of the job in the order of time. A company chooses which of them bind; what each holds back and who lets it
 * go is the same everywhere.
 * @provenance common practice; the days are those of the rules in force, and who may let go is our judgement
 */
export const holdRules: Readonly<Record<HoldPoint, HoldRule>> = {
  'base survey': {
    ...beforeLaying,
    ...practice,
    notFor: always,
    evidence: ['base-surveyed'],
    doneBy: ['base-surveyed'],
  },
  thickness: {
    ...beforeLaying,
    ...practice,
    notFor: always,
    evidence: ['base-surveyed', 'thickness-measured'],
    doneBy: ['base-surveyed'],
  },
  'edge strip': {
    ...beforeLaying,
    ...practice,
    notFor: always,
    evidence: ['edge-strip-fitted'],
    doneBy: ['edge-strip-fitted'],
  },
  'pipe pressure': {
    ...beforeLaying,
    notFor: heatedOnly,
    evidence: ['pipes-pressure-tested'],
    doneBy: ['pipes-pressure-tested'],
    source: 'EN 1264-4: pipes are tested before and kept under pressure while the screed is laid',
    provenance: 'quoted second-hand',
  },
  'curing day 4': {
    ...practice,
    notFor: keptDamp,
    holdsBack: 'Walking on it, and taking the sheet off for good',
    dueAt: (facts) => daysAfterFinish(facts, facts.rules.limits['cure.daysLeast'].value),
    dueWithEvidence: false,
    evidence: ['sheet-on', 'sheet-off', 'no-traffic-confirmed', 'traffic-seen'],
    doneBy: ['bay-finished'],
    passing: (facts) => [...trafficOf(facts), ...endOfCuring(facts)],
    mayRelease: ['supervisor', 'quality manager'],
  },
  'curing day 7': {
    notFor: keptDamp,
    holdsBack: 'Ladders, wheels and stacks, and taking the sheet off for good',
    dueAt: (facts) => daysAfterFinish(facts, facts.rules.limits['cure.days'].value),
    dueWithEvidence: false,
    evidence: ['sheet-on', 'sheet-off', 'no-traffic-confirmed', 'traffic-seen'],
    doneBy: ['bay-finished'],
    passing: (facts) => [...trafficOf(facts, 'point or wheel'), ...endOfCuring(facts)],
    mayRelease: ['supervisor', 'quality manager'],
    source: 'BS 8204-1: at least 7 days under the sheet',
    provenance: 'quoted second-hand',
  },
  soundness: {
    ...beforeCovering,
    notFor: always,
    dueAt: (facts) => daysAfterFinish(facts, facts.rules.limits['soundness.ageDays'].value),
    evidence: ['soundness-tested', 'surface-tested'],
    doneBy: ['soundness-tested'],
    mayRelease: ['quality manager'],
    source: 'BS 8204-1 Annex D, in-situ crushing resistance',
    provenance: 'quoted second-hand',
  },
  regularity: {
    ...beforeCovering,
    ...practice,
    notFor: always,
    dueAt: (facts) => {
      const from = dryingFrom(facts)
      return from === null ? null : from + facts.rules.limits['regularity.dryingDays'].value * dayMs
    },
    evidence: ['regularity-checked', 'level-checked'],
    doneBy: ['regularity-checked'],
    mayRelease: ['quality manager'],
  },
  'heating run': {
    notFor: heatedOnly,
    holdsBack: 'The moisture test, and covering',
    dueAt: (facts) => {
      const first = facts.life.cementBound ? 'heat.firstCementDays' : 'heat.firstCalciumSulfateDays'
      return daysAfterFinish(facts, facts.rules.limits[first].value)
    },
    dueWithEvidence: false,
    evidence: ['heating-noted'],
    doneBy: ['heating-noted'],
    passing: (facts) => [...moistureTests(facts), ...covering(facts)],
    mayRelease: ['quality manager', 'tester'],
    source: 'EN 1264-4: heated up and down before the covering, with a record',
    provenance: 'quoted second-hand',
  },
  'moisture test': {
    ...beforeCovering,
    notFor: always,
    dueAt: () => null,
    evidence: ['moisture-read'],
    doneBy: ['moisture-read'],
    mayRelease: ['quality manager', 'tester'],
    source: 'BS 8203: tested for moisture before the covering',
    provenance: 'quoted second-hand',
  },
  release: {
    ...beforeCovering,
    ...practice,
    notFor: always,
    dueAt: ({ story }) =>
      entriesOf(story, 'hold-point-released').findLast(
        ({ body }) => body.point === 'moisture test' && body.decision !== 'held',
      )?.happenedAt ?? null,
    evidence: ['bay-decided'],
    doneBy: ['bay-finished'],
    mayRelease: ['flooring contractor', 'quality manager'],
  },
}

/** Those that keep the first batch waiting. */
export const beforeLayingPoints: readonly HoldPoint[] = [
  'base survey',
  'thickness',
  'edge strip',
  'pipe pressure',
]

/** The points in the order of time. */
export const holdOrder = Object.keys(holdPoints) as HoldPoint[]
