import { entryKind } from './entry-kind.ts'
import { choice, day, instant, listOf, number, optional, reference, text } from './fields.ts'
import { coverings, type MoistureMethod, moistureMethods } from './words.ts'

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

/** That a PIN was set, by whom and on what ground; never the PIN or anything made from it. */
export const pinSet = entryKind({
  kind: 'pin-set',
  title: 'PIN set',
  about: 'person',
  fields: {
    how: choice('How', {
      first: 'First PIN on this machine',
      changed: 'Changed, knowing the old one',
      reset: 'Set anew by a quality manager',
    }),
  },
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

/** What a check reading by each method is told in: stored value → words on screen. */
export const checkUnits = {
  '% RH': '% RH',
  '% CM': '% CM',
  '% by mass': '% by mass',
  'lb/(1000 ft²·24 h)': 'lb/(1000 ft²·24 h)',
  'on its own scale': 'on the meter’s own scale',
} as const
export type CheckUnit = keyof typeof checkUnits

export const checkUnitOf: Readonly<Record<MoistureMethod, CheckUnit>> = {
  'hygrometer box': '% RH',
  probe: '% RH',
  'crushed sample': '% RH',
  carbide: '% CM',
  'oven dry': '% by mass',
  'calcium chloride': 'lb/(1000 ft²·24 h)',
  'electrical survey': 'on its own scale',
}

/** Who ordered a covering before readiness, knowing what: all of it or none. */
const waiverFields = ['orderedBy', 'orderedAs', 'knownReading', 'knownLimit', 'explained'] as const

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
    ownChecks: optional(
      listOf(
        'Own check readings',
        {
          value: number('Value', '', { hard: [0, 1000] }),
          unit: choice('Unit', checkUnits),
          method: choice('Method', moistureMethods),
          place: text('Place', { max: 60 }),
        },
        { most: 20 },
      ),
    ),
    holdsUntil: optional(instant('The tests count until', 'Or until anything wets the floor')),
    orderedBy: optional(text('Ordered by', { max: 120 })),
    orderedAs: optional(text('Role of who ordered it', { max: 120 })),
    knownReading: optional(text('Knowing the reading', { max: 200 })),
    knownLimit: optional(text('Against the limit', { max: 200 })),
    explained: optional(text('What may come of it, as it was explained', { long: true })),
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
    ...(body.ownChecks ?? []).flatMap(({ value, unit, method }, i) => [
      ...(unit === checkUnitOf[method]
        ? []
        : [
            {
              field: `ownChecks.${i}.unit`,
              message: `must be ${checkUnits[checkUnitOf[method]]} for this method`,
            },
          ]),
      ...(unit.startsWith('%') && value > 100
        ? [{ field: `ownChecks.${i}.value`, message: 'must be at most 100 %' }]
        : []),
    ]),
    ...(waiverFields.some((field) => body[field] !== undefined)
      ? waiverFields
          .filter((field) => body[field] === undefined)
          .map((field) => ({ field, message: 'is missing: a waiver names who, as what, knowing what' }))
      : []),
  ],
})

export const entryWithdrawn = entryKind({
  kind: 'entry-withdrawn',
  title: 'Entered in error',
  about: 'project',
  fields: {},
})
