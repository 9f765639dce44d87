import { entryKind } from './entry-kind.ts'
import { choice, day, listOf, optional, reference, text } from './fields.ts'
import { coverings } from './words.ts'

export const roles = {
  supervisor: 'Site supervisor',
  'quality manager': 'Quality manager',
  'flooring contractor': 'Flooring contractor',
  tester: 'Tester',
  viewer: 'Viewer',
} as const
export type Role = keyof typeof roles

export const personAdded = entryKind({
  kind: 'person-added',
  title: 'Person added',
  about: 'person',
  begins: true,
  fields: { name: text('Name'), firm: optional(text('Firm')), role: choice('Role', roles) },
})

export const alertAnswered = entryKind({
  kind: 'alert-answered',
  title: 'Alert answered',
  about: 'bay',
  fields: {
    alert: text('Alert', { max: 80 }),
    answer: text('What was done, or why it can stand', { long: true }),
  },
})

export const holdPoints = {
  'base survey': 'Base survey',
  thickness: 'Thickness',
  'edge strip': 'Edge strip',
  'pipe pressure': 'Pipe pressure test',
  'curing day 4': 'Curing, day 4',
  'curing day 7': 'Curing, day 7',
  soundness: 'Soundness',
  regularity: 'Surface regularity',
  'heating run': 'Heating run',
  'moisture test': 'Moisture test',
  release: 'Release to cover',
} as const
export type HoldPoint = keyof typeof holdPoints

/** A waiver of fewer letters gives no reason. */
const leastReason = 12

export const holdPointReleased = entryKind({
  kind: 'hold-point-released',
  title: 'Hold point released',
  about: 'bay',
  fields: {
    point: choice('Hold point', holdPoints),
    decision: choice('Decision', { released: 'Released', waived: 'Waived', held: 'Held' }),
    saw: text('What was seen', { long: true, help: 'For a waiver: who ordered it, and why it may go on' }),
  },
  problems: ({ decision, saw }) =>
    decision === 'waived' && saw.trim().length < leastReason
      ? [{ field: 'saw', message: 'must say who ordered the waiver and why it may go on' }]
      : [],
})

export const nonconformanceRaised = entryKind({
  kind: 'nonconformance-raised',
  title: 'Non-conformance raised',
  about: 'bay',
  fields: {
    rule: text('Rule or finding'),
    what: text('What is wrong', { long: true }),
    owner: optional(reference('Owner', 'person')),
    dueOn: optional(day('Due')),
  },
})

export const nonconformanceClosed = entryKind({
  kind: 'nonconformance-closed',
  title: 'Non-conformance closed',
  about: 'bay',
  fields: {
    raised: reference('Non-conformance', 'entry'),
    cause: text('Cause', { long: true }),
    action: text('What was done', { long: true }),
  },
})

export const bayDecided = entryKind({
  kind: 'bay-decided',
  title: 'Decision on covering',
  about: 'bay',
  fields: {
    decision: choice('Decision', {
      accepted: 'Accepted',
      refused: 'Not accepted',
      waived: 'Covering ordered before readiness',
    }),
    covering: choice('Covering', coverings),
    verdictShown: choice('Verdict shown', {
      ready: 'READY',
      'not ready': 'NOT READY',
      'not proven': 'NOT PROVEN',
    }),
    ownReading: optional(text('Own check reading')),
    reasons: optional(listOf('Reasons', { reason: text('Reason', { long: true }) })),
    nextLookOn: optional(day('Next look on')),
  },
  problems: (body) => [
    ...(body.decision !== 'accepted' && (body.reasons ?? []).length === 0
      ? [{ field: 'reasons', message: 'must say why' }]
      : []),
    ...(body.decision === 'accepted' && body.verdictShown !== 'ready'
      ? [
          {
            field: 'decision',
            message: 'cannot be "accepted" while the bay is not READY; refuse it, or record a waiver by name',
          },
        ]
      : []),
  ],
})

export const entryWithdrawn = entryKind({
  kind: 'entry-withdrawn',
  title: 'Entered in error',
  about: 'project',
  fields: {},
})
