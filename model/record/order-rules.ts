import type { StoryEntry, StoryEntryOf } from './entry.ts'
import type { KindName } from './kinds.ts'
import { faultOrderRules } from './order-rules-faults.ts'

/** What one kind of entry must not contradict: the kinds it looks at, and the faults it finds. */
export interface OrderRule {
  looksAt: readonly KindName[]
  find: (entry: Happening, standing: StoryEntry[]) => { field: string; message: string }[]
}

export interface Happening {
  at: number
  subject: string
  body: Record<string, unknown>
}

const tests = [
  'moisture-read',
  'soundness-tested',
  'surface-tested',
  'regularity-checked',
  'level-checked',
] as const satisfies readonly KindName[]

const afterFinish: OrderRule = {
  looksAt: ['bay-finished'],
  find: ({ at, body }, standing) => {
    const finish = lastOf(standing, 'bay-finished')
    if (finish === undefined) {
      return [
        {
          field: 'happenedAt',
          message: 'lies before the bay is finished: record first when it was finished',
        },
      ]
    }
    const before = `lies before the bay was finished at ${instantOf(finish.happenedAt)}`
    const setAt = typeof body.setAt === 'string' ? Date.parse(body.setAt) : at
    return [
      ...(at < finish.happenedAt ? [{ field: 'happenedAt', message: before }] : []),
      ...(setAt < finish.happenedAt && at >= finish.happenedAt ? [{ field: 'setAt', message: before }] : []),
    ]
  },
}

/** What cannot have happened, by the kind of entry that would say it did. */
export const orderRules: Partial<Record<KindName, OrderRule>> = {
  'sheet-on': {
    looksAt: ['bay-finished'],
    find: ({ at }, standing) => {
      const finish = lastOf(standing, 'bay-finished')
      if (finish === undefined || at >= Date.parse(finish.body.startedAt)) return []
      return [{ field: 'happenedAt', message: `lies before laying started at ${finish.body.startedAt}` }]
    },
  },
  'sheet-off': {
    looksAt: ['sheet-on', 'sheet-off'],
    find: ({ at }, standing) => {
      const last = lastBefore(standing, at, () => true)
      if (last === undefined) {
        return [
          { field: 'happenedAt', message: 'has no sheet before it: record first when the sheet was laid' },
        ]
      }
      if (last.kind === 'sheet-off' && last.body.why !== 'damaged') {
        const since = `the sheet is off since ${instantOf(last.happenedAt)}`
        return [{ field: 'happenedAt', message: `cannot be: ${since}. Record first when it was laid again` }]
      }
      return []
    },
  },
  'protection-off': {
    looksAt: ['protection-on', 'protection-off'],
    find: ({ at, body }, standing) => {
      const last = lastBefore(
        standing,
        at,
        (one) =>
          (one.kind === 'protection-on' && one.body.what === body.what && one.body.planned !== true) ||
          (one.kind === 'protection-off' && one.body.what === body.what),
      )
      if (last?.kind === 'protection-on') return []
      return [{ field: 'what', message: 'was not on at that time: record first when it was put on' }]
    },
  },
  'batch-mixed': {
    looksAt: [],
    find: ({ at, body }) =>
      typeof body.laidAt === 'string' && Date.parse(body.laidAt) < at
        ? [{ field: 'laidAt', message: `must not be before the batch was mixed at ${instantOf(at)}` }]
        : [],
  },
  'lift-laid': {
    looksAt: ['lift-laid', 'bay-finished'],
    find: ({ body }, standing) => {
      const startedAt = Date.parse(String(body.startedAt))
      const lift = Number(body.lift)
      const finish = lastOf(standing, 'bay-finished')
      const others = standing.filter((one) => one.kind === 'lift-laid')
      const below = others.find((one) => one.body.lift < lift && Date.parse(one.body.startedAt) > startedAt)
      return [
        ...(finish !== undefined && startedAt > finish.happenedAt
          ? [
              {
                field: 'startedAt',
                message: `lies after the bay was finished at ${instantOf(finish.happenedAt)}`,
              },
            ]
          : []),
        ...(below === undefined
          ? []
          : [
              {
                field: 'startedAt',
                message: `lies before lift ${below.body.lift}, started at ${below.body.startedAt}`,
              },
            ]),
      ]
    },
  },
  'bay-finished': {
    looksAt: ['bay-finished', ...tests],
    find: ({ at, body }, standing) => {
      const startedAt = String(body.startedAt)
      const earlier = lastOf(standing, 'bay-finished')
      const test = standing.find((one) => one.kind !== 'bay-finished' && one.happenedAt < at)
      return [
        ...(Date.parse(startedAt) > at
          ? [{ field: 'startedAt', message: `must not be after the finish at ${instantOf(at)}` }]
          : []),
        ...(earlier === undefined
          ? []
          : [
              {
                field: 'happenedAt',
                message: `is a second finish: the bay was finished at ${instantOf(earlier.happenedAt)}. Correct that entry`,
              },
            ]),
        ...(test === undefined
          ? []
          : [
              {
                field: 'happenedAt',
                message: `lies after a test of the bay at ${instantOf(test.happenedAt)}`,
              },
            ]),
      ]
    },
  },
  'covering-laid': {
    looksAt: ['bay-finished'],
    find: ({ at, body }, standing) => {
      const finish = lastOf(standing, 'bay-finished')
      if (finish === undefined) {
        return [
          { field: 'on', message: 'lies before the bay is finished: record first when it was finished' },
        ]
      }
      const laidBy = Math.max(at, Date.parse(`${String(body.on)}T23:59:59Z`))
      return laidBy < finish.happenedAt
        ? [{ field: 'on', message: `lies before the bay was finished at ${instantOf(finish.happenedAt)}` }]
        : []
    },
  },
  'heating-noted': {
    looksAt: ['zone-added', 'heating-noted'],
    find: ({ at, body }, standing) => {
      const zone = lastOf(standing, 'zone-added')
      if (zone !== undefined && !zone.body.heated) {
        return [
          { field: 'state', message: 'cannot be: this zone has no heated floor. Correct the zone first' },
        ]
      }
      if (body.state !== 'off') return []
      const sameCircuit = (one: StoryEntry) =>
        one.kind === 'heating-noted' &&
        (body.circuit === undefined || one.body.circuit === undefined || one.body.circuit === body.circuit)
      return lastBefore(standing, at, sameCircuit) === undefined
        ? [{ field: 'state', message: 'cannot be before the heating ran: record first when it was running' }]
        : []
    },
  },
  'defect-closed': {
    looksAt: ['defect-found', 'defect-closed'],
    find: ({ at, body }, standing) =>
      closing('defect', 'defect', at, body, standing, 'defect-found', 'defect-closed'),
  },
  'nonconformance-closed': {
    looksAt: ['nonconformance-raised', 'nonconformance-closed'],
    find: ({ at, body }, standing) =>
      closing(
        'raised',
        'non-conformance',
        at,
        body,
        standing,
        'nonconformance-raised',
        'nonconformance-closed',
      ),
  },
  ...faultOrderRules,
  ...Object.fromEntries(tests.map((kind) => [kind, afterFinish])),
}

function closing(
  field: string,
  thing: string,
  at: number,
  body: Record<string, unknown>,
  standing: StoryEntry[],
  opens: KindName,
  closes: 'defect-closed' | 'nonconformance-closed',
) {
  const opened = standing.find((one) => one.kind === opens && one.id === body[field])
  if (opened === undefined) return [{ field, message: `is not a ${thing} that was found on this bay` }]
  if (at < opened.happenedAt) {
    const message = `lies before the ${thing} was found at ${instantOf(opened.happenedAt)}`
    return [{ field: 'happenedAt', message }]
  }
  const closed = standing.find(
    (one) => one.kind === closes && (one.body as Record<string, unknown>)[field] === body[field],
  )
  return closed === undefined
    ? []
    : [{ field, message: `is a ${thing} closed already at ${instantOf(closed.happenedAt)}` }]
}

function lastOf<K extends KindName>(standing: StoryEntry[], kind: K): StoryEntryOf<K> | undefined {
  return lastBefore(standing, Number.POSITIVE_INFINITY, (one) => one.kind === kind) as
    | StoryEntryOf<K>
    | undefined
}

function lastBefore(
  standing: StoryEntry[],
  at: number,
  matches: (entry: StoryEntry) => boolean,
): StoryEntry | undefined {
  let last: StoryEntry | undefined
  for (const one of standing) {
    if (one.happenedAt <= at && matches(one) && (last === undefined || one.happenedAt >= last.happenedAt))
      last = one
  }
  return last
}

/** [epoch ms] → ISO 8601 in UTC, for sentences. */
export function instantOf(at: number): string {
  return new Date(at).toISOString()
}
