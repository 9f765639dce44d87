import { describe, expect, it } from 'vitest'
import type { CheckedEntry, StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { orderLooksAt, orderProblems } from '#model/record/order.ts'

/** Truth table of what cannot have happened. Common practice: the order follows from what the words mean. */
const bay = '019f0000-0000-7000-8000-000000000001'
const hour = 3_600_000
const seven = Date.parse('2026-11-02T07:00:00Z')
const at = (hours: number) => seven + hours * hour
const iso = (hours: number) => new Date(at(hours)).toISOString()

type Told = [kind: KindName, hours: number, body?: Record<string, unknown>, more?: Partial<StoryEntry>]

function standing([kind, hours, body = {}, more = {}]: Told, index: number): StoryEntry {
  return {
    id: `fact-${index}`,
    kind,
    subject: bay,
    happenedAt: at(hours),
    withdrawn: false,
    versions: [],
    body,
    ...more,
  } as unknown as StoryEntry
}

function asked([kind, hours, body = {}]: Told, corrects?: string): CheckedEntry {
  return {
    kind,
    subject: bay,
    happenedAt: iso(hours),
    body,
    ...(corrects && { corrects }),
  } as unknown as CheckedEntry
}

const finished: Told = ['bay-finished', 0, { startedAt: iso(-4) }]
const boards = { what: 'boards' }

interface Row {
  name: string
  before: Told[]
  entry: Told
  /** The field of the problem; null when the entry can have happened. */
  problem: string | null
}

const table: Row[] = [
  { name: 'a sheet off that was never laid', before: [], entry: ['sheet-off', 5, {}], problem: 'happenedAt' },
  {
    name: 'a sheet off after it was laid',
    before: [['sheet-on', 1]],
    entry: ['sheet-off', 5],
    problem: null,
  },
  {
    name: 'a sheet off at the minute it was laid',
    before: [['sheet-on', 5]],
    entry: ['sheet-off', 5],
    problem: null,
  },
  {
    name: 'a sheet off before it was laid',
    before: [['sheet-on', 6]],
    entry: ['sheet-off', 5],
    problem: 'happenedAt',
  },
  {
    name: 'a sheet off twice',
    before: [
      ['sheet-on', 1],
      ['sheet-off', 4, { why: 'lifted' }],
    ],
    entry: ['sheet-off', 5],
    problem: 'happenedAt',
  },
  {
    name: 'a sheet off after it was found damaged in place',
    before: [
      ['sheet-on', 1],
      ['sheet-off', 4, { why: 'damaged' }],
    ],
    entry: ['sheet-off', 5],
    problem: null,
  },
  {
    name: 'a sheet off after it was laid again',
    before: [
      ['sheet-on', 1],
      ['sheet-off', 3, { why: 'lifted' }],
      ['sheet-on', 4],
    ],
    entry: ['sheet-off', 5],
    problem: null,
  },
  {
    name: 'a sheet off whose laying was withdrawn',
    before: [['sheet-on', 1, {}, { withdrawn: true }]],
    entry: ['sheet-off', 5],
    problem: 'happenedAt',
  },
  {
    name: 'a sheet off whose laying was on another bay',
    before: [['sheet-on', 1, {}, { subject: 'other' }]],
    entry: ['sheet-off', 5],
    problem: 'happenedAt',
  },
  {
    name: 'a sheet on before laying started',
    before: [finished],
    entry: ['sheet-on', -5],
    problem: 'happenedAt',
  },
  {
    name: 'a sheet on while the far end is laid',
    before: [finished],
    entry: ['sheet-on', -1],
    problem: null,
  },
  {
    name: 'protection off that was never on',
    before: [],
    entry: ['protection-off', 5, boards],
    problem: 'what',
  },
  {
    name: 'protection off that was on',
    before: [['protection-on', 1, boards]],
    entry: ['protection-off', 5, boards],
    problem: null,
  },
  {
    name: 'protection off that was only planned',
    before: [['protection-on', 1, { ...boards, planned: true }]],
    entry: ['protection-off', 5, boards],
    problem: 'what',
  },
  {
    name: 'another protection off',
    before: [['protection-on', 1, { what: 'shade' }]],
    entry: ['protection-off', 5, boards],
    problem: 'what',
  },
  {
    name: 'protection off twice',
    before: [
      ['protection-on', 1, boards],
      ['protection-off', 2, boards],
    ],
    entry: ['protection-off', 5, boards],
    problem: 'what',
  },
  {
    name: 'a batch laid before it was mixed',
    before: [],
    entry: ['batch-mixed', 1, { laidAt: iso(0.9) }],
    problem: 'laidAt',
  },
  {
    name: 'a batch laid after it was mixed',
    before: [],
    entry: ['batch-mixed', 1, { laidAt: iso(1.5) }],
    problem: null,
  },
  { name: 'a batch laid nobody knows when', before: [], entry: ['batch-mixed', 1, {}], problem: null },
  {
    name: 'a finish before its start',
    before: [],
    entry: ['bay-finished', 0, { startedAt: iso(1) }],
    problem: 'startedAt',
  },
  {
    name: 'a finish after its start',
    before: [],
    entry: ['bay-finished', 0, { startedAt: iso(-4) }],
    problem: null,
  },
  {
    name: 'a second finish',
    before: [finished],
    entry: ['bay-finished', 3, { startedAt: iso(1) }],
    problem: 'happenedAt',
  },
  {
    name: 'a finish after a test',
    before: [['moisture-read', 2]],
    entry: ['bay-finished', 3, { startedAt: iso(1) }],
    problem: 'happenedAt',
  },
  {
    name: 'a moisture test of an unfinished bay',
    before: [],
    entry: ['moisture-read', 50],
    problem: 'happenedAt',
  },
  {
    name: 'a moisture test before the finish',
    before: [finished],
    entry: ['moisture-read', -1],
    problem: 'happenedAt',
  },
  {
    name: 'a moisture test after the finish',
    before: [finished],
    entry: ['moisture-read', 50],
    problem: null,
  },
  {
    name: 'a moisture test set before the finish',
    before: [finished],
    entry: ['moisture-read', 50, { setAt: iso(-2) }],
    problem: 'setAt',
  },
  {
    name: 'a soundness test before the finish',
    before: [finished],
    entry: ['soundness-tested', -1],
    problem: 'happenedAt',
  },
  {
    name: 'a surface test before the finish',
    before: [finished],
    entry: ['surface-tested', -1],
    problem: 'happenedAt',
  },
  {
    name: 'a regularity check before the finish',
    before: [finished],
    entry: ['regularity-checked', -1],
    problem: 'happenedAt',
  },
  {
    name: 'a level check before the finish',
    before: [finished],
    entry: ['level-checked', -1],
    problem: 'happenedAt',
  },
  { name: 'a level check after the finish', before: [finished], entry: ['level-checked', 1], problem: null },
  {
    name: 'a covering on an unfinished bay',
    before: [],
    entry: ['covering-laid', 5, { on: '2026-11-02' }],
    problem: 'on',
  },
  {
    name: 'a covering before the finish',
    before: [['bay-finished', 240, { startedAt: iso(236) }]],
    entry: ['covering-laid', 5, { on: '2026-11-02' }],
    problem: 'on',
  },
  {
    name: 'a covering after the finish',
    before: [finished],
    entry: ['covering-laid', 900, { on: '2026-12-09' }],
    problem: null,
  },
  {
    name: 'a second lift under the first in time',
    before: [['lift-laid', 3, { lift: 1, startedAt: iso(2) }]],
    entry: ['lift-laid', 1, { lift: 2, startedAt: iso(0) }],
    problem: 'startedAt',
  },
  {
    name: 'a second lift after the first',
    before: [['lift-laid', 3, { lift: 1, startedAt: iso(2) }]],
    entry: ['lift-laid', 5, { lift: 2, startedAt: iso(4) }],
    problem: null,
  },
  {
    name: 'a lift after the finish',
    before: [finished],
    entry: ['lift-laid', 5, { lift: 1, startedAt: iso(4) }],
    problem: 'startedAt',
  },
  {
    name: 'heating off that never ran',
    before: [],
    entry: ['heating-noted', 5, { state: 'off' }],
    problem: 'state',
  },
  {
    name: 'heating off after it ran',
    before: [['heating-noted', 1, { state: 'running' }]],
    entry: ['heating-noted', 5, { state: 'off' }],
    problem: null,
  },
  {
    name: 'another circuit off',
    before: [['heating-noted', 1, { state: 'running', circuit: 'A' }]],
    entry: ['heating-noted', 5, { state: 'off', circuit: 'B' }],
    problem: 'state',
  },
  {
    name: 'heating in a zone without any',
    before: [['zone-added', 0, { heated: false }]],
    entry: ['heating-noted', 5, { state: 'running' }],
    problem: 'state',
  },
  {
    name: 'a defect closed that nobody found',
    before: [],
    entry: ['defect-closed', 5, { defect: 'fact-0' }],
    problem: 'defect',
  },
  {
    name: 'something else closed as a defect',
    before: [['sheet-on', 1]],
    entry: ['defect-closed', 5, { defect: 'fact-0' }],
    problem: 'defect',
  },
  {
    name: 'a defect closed',
    before: [['defect-found', 1]],
    entry: ['defect-closed', 5, { defect: 'fact-0' }],
    problem: null,
  },
  {
    name: 'a defect closed before it was found',
    before: [['defect-found', 6]],
    entry: ['defect-closed', 5, { defect: 'fact-0' }],
    problem: 'happenedAt',
  },
  {
    name: 'a defect closed twice',
    before: [
      ['defect-found', 1],
      ['defect-closed', 2, { defect: 'fact-0' }],
    ],
    entry: ['defect-closed', 5, { defect: 'fact-0' }],
    problem: 'defect',
  },
  {
    name: 'a non-conformance closed that nobody raised',
    before: [],
    entry: ['nonconformance-closed', 5, { raised: 'fact-0' }],
    problem: 'raised',
  },
  {
    name: 'a non-conformance closed',
    before: [['nonconformance-raised', 1]],
    entry: ['nonconformance-closed', 5, { raised: 'fact-0' }],
    problem: null,
  },
  { name: 'air read at any time', before: [], entry: ['air-read', -500, { airC: 4 }], problem: null },
]

describe('the order of things', () => {
  it.each(table)('ORD-1: $name', ({ before, entry, problem }) => {
    const problems = orderProblems(asked(entry), before.map(standing))
    expect(problems.map((one) => one.field)).toEqual(problem === null ? [] : [problem])
    for (const { message, value } of problems) {
      expect(message).toMatch(/^[A-Z].+\.$/)
      expect(value).not.toBe('')
    }
  })

  it('ORD-2: a correction is compared with the others and not with what it replaces', () => {
    const facts = [standing(finished, 0)]
    const moved: Told = ['bay-finished', 2, { startedAt: iso(-4) }]
    expect(orderProblems(asked(moved), facts)).toHaveLength(1)
    expect(orderProblems(asked(moved, 'fact-0'), facts)).toEqual([])
    const corrected = standing(
      ['bay-finished', 0, { startedAt: iso(-4) }, { versions: [{ id: 'second' }] as never }],
      0,
    )
    expect(orderProblems(asked(moved, 'second'), [corrected])).toEqual([])
  })

  it('ORD-3: a rule is told of every kind that it looks at', () => {
    for (const { entry, before } of table) {
      const mentioned = before.map(([kind]) => kind)
      const seen = orderLooksAt(entry[0])
      const withAll = orderProblems(asked(entry), before.map(standing))
      const withSeen = orderProblems(
        asked(entry),
        before.map(standing).filter((one) => seen.includes(one.kind)),
      )
      expect(withSeen, `${entry[0]} among ${mentioned.join()}`).toEqual(withAll)
    }
  })
})
