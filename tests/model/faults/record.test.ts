import { describe, expect, it } from 'vitest'
import { checkBody } from '#model/record/check-body.ts'
import type { CheckedEntry, StoryEntry } from '#model/record/entry.ts'
import type { KindName } from '#model/record/kinds.ts'
import { orderLooksAt, orderProblems } from '#model/record/order.ts'

const bay = '019f0000-0000-7000-8000-000000000001'
const id = (n: number) => `019f0000-0000-7000-8000-00000000010${n}`
const [defect, otherDefect, diagnosis, repair] = [id(1), id(2), id(3), id(4)] as const
const hour = 3_600_000
const seven = Date.parse('2026-11-02T07:00:00Z')

type Told = [kind: KindName, hours: number, body: Record<string, unknown>, id?: string]
const standing = ([kind, hours, body, own = 'x']: Told) =>
  ({
    id: own,
    kind,
    subject: bay,
    happenedAt: seven + hours * hour,
    withdrawn: false,
    versions: [],
    body,
  }) as unknown as StoryEntry
const asked = ([kind, hours, body]: Told) =>
  ({
    kind,
    subject: bay,
    happenedAt: new Date(seven + hours * hour).toISOString(),
    body,
  }) as unknown as CheckedEntry

const found: Told = ['defect-found', 0, { symptom: 'S06' }, defect]
const foundOther: Told = ['defect-found', 0, { symptom: 'S01' }, otherDefect]
const named: Told = ['cause-named', 5, { defects: [{ defect }] }, diagnosis]
const done: Told = ['repair-done', 9, { defect, diagnosis }, repair]

const table: { name: string; before: Told[]; entry: Told; problem: RegExp | null }[] = [
  {
    name: 'a repair of a defect whose cause is named',
    before: [found, named],
    entry: ['repair-done', 9, { defect, diagnosis }],
    problem: null,
  },
  {
    name: 'a repair without a diagnosis in the record',
    before: [found],
    entry: ['repair-done', 9, { defect, diagnosis }],
    problem:
      /is not a diagnosis of this defect: name its cause first, or record “not known, treated as …” with the reason/,
  },
  {
    name: 'a repair on the diagnosis of another defect',
    before: [found, foundOther, named],
    entry: ['repair-done', 9, { defect: otherDefect, diagnosis }],
    problem: /is not a diagnosis of this defect/,
  },
  {
    name: 'a repair that names a defect as its diagnosis',
    before: [found, named],
    entry: ['repair-done', 9, { defect, diagnosis: defect }],
    problem: /is not a diagnosis of this defect/,
  },
  {
    name: 'a repair before its diagnosis',
    before: [found, named],
    entry: ['repair-done', 4, { defect, diagnosis }],
    problem: /after this repair: a repair follows its diagnosis/,
  },
  {
    name: 'a repair of a defect that nobody found',
    before: [named],
    entry: ['repair-done', 9, { defect, diagnosis }],
    problem: /is not a defect that was found on this bay/,
  },
  {
    name: 'a gauge reading of a found crack',
    before: [found],
    entry: ['crack-gauged', 1, { defect }],
    problem: null,
  },
  {
    name: 'a gauge reading of a crack that nobody found',
    before: [foundOther],
    entry: ['crack-gauged', 1, { defect }],
    problem: /record the defect first/,
  },
  {
    name: 'evidence on a defect that nobody found',
    before: [],
    entry: ['fault-evidence-noted', 1, { defect }],
    problem: /record the defect first/,
  },
  {
    name: 'a cause for two defects, one of them not found',
    before: [found],
    entry: ['cause-named', 1, { defects: [{ defect }, { defect: otherDefect }] }],
    problem: /defects\.1\.defect/,
  },
  {
    name: 'a re-test of a repair',
    before: [found, named, done],
    entry: ['repair-retested', 10, { repair }],
    problem: null,
  },
  {
    name: 'a re-test of no repair',
    before: [found, named],
    entry: ['repair-retested', 10, { repair }],
    problem: /is not a repair of this bay/,
  },
  {
    name: 'a re-test before its repair',
    before: [found, named, done],
    entry: ['repair-retested', 8, { repair }],
    problem: /lies before the repair/,
  },
  { name: 'first own weights', before: [], entry: ['cause-weights-set', 1, { version: 2 }], problem: null },
  {
    name: 'own weights with a version that stands already',
    before: [['cause-weights-set', 0, { version: 3 }]],
    entry: ['cause-weights-set', 1, { version: 3 }],
    problem: /must be above 3/,
  },
]

/** What cannot have happened. Common practice: no repair without a diagnosis. */
describe('FRC: the order of faults', () => {
  it.each(table)('FRC-1: $name', ({ before, entry, problem }) => {
    for (const [kind] of before) {
      if (kind !== entry[0])
        expect([...orderLooksAt(entry[0]), 'defect-found', 'cause-named']).toContain(kind)
    }
    const problems = orderProblems(asked(entry), before.map(standing)).map(({ message }) => message)
    if (problem === null) expect(problems).toEqual([])
    else expect(problems.join(' ')).toMatch(problem)
  })
})

const problemsOf = (kind: KindName, body: Record<string, unknown>) =>
  checkBody(kind, body).problems.map(({ field }) => field)

describe('FRC: bodies of faults', () => {
  const cause = {
    defects: [{ defect }],
    cause: 'CURE',
    reason: 'no sheet',
    weightsVersion: '1',
    shown: [{ cause: 'CURE', probability: 0.97, logOdds: 3.6, examined: true }],
  }
  const repaired = {
    defect,
    diagnosis,
    option: 'fill',
    lengthM: 2,
    startedOn: '2026-11-02',
    finishedOn: '2026-11-03',
  }

  it('FRC-2: "not known" must say as what it is treated', () => {
    expect(problemsOf('cause-named', cause)).toEqual([])
    expect(problemsOf('cause-named', { ...cause, cause: 'unknown' })).toEqual(['treatedAs'])
    expect(problemsOf('cause-named', { ...cause, cause: 'unknown', treatedAs: 'dormant' })).toEqual([])
    expect(problemsOf('cause-named', { ...cause, reason: undefined })).toEqual(['reason'])
    expect(problemsOf('cause-named', { ...cause, shown: [...cause.shown, ...cause.shown] })).toEqual([
      'shown.1.cause',
    ])
  })

  it('FRC-3: a conflict has no probability, and that can be kept', () => {
    expect(problemsOf('cause-named', { ...cause, shown: [{ cause: 'FROST', examined: true }] })).toEqual([])
  })

  it('FRC-4: a repair names its diagnosis and what was treated, and does not end before it starts', () => {
    expect(problemsOf('repair-done', repaired)).toEqual([])
    expect(problemsOf('repair-done', { ...repaired, diagnosis: undefined })).toEqual(['diagnosis'])
    expect(problemsOf('repair-done', { ...repaired, lengthM: undefined })).toEqual(['areaM2'])
    expect(problemsOf('repair-done', { ...repaired, finishedOn: '2026-11-01' })).toEqual(['finishedOn'])
  })

  it('FRC-5: "not able to tell" says why; a measure measures something; a hash is a hash', () => {
    const looked = { defect, evidence: 'E45', found: 'not able to tell', method: 'scratch' }
    expect(problemsOf('fault-evidence-noted', looked)).toEqual(['note'])
    expect(problemsOf('fault-evidence-noted', { ...looked, evidence: 'E65', note: 'wet' })).toEqual([
      'evidence',
    ])
    expect(problemsOf('defect-measured', { defect, method: 'core' })).toEqual(['weakToMm'])
    expect(problemsOf('defect-measured', { defect, method: 'core', weakToMm: 4 })).toEqual([])
    expect(problemsOf('evidence-frozen', { defect, contentHash: 'abc', entriesCount: 3 })).toEqual([
      'contentHash',
    ])
    expect(problemsOf('crack-gauged', { defect, widthMm: 31, place: 'a' })).toEqual(['widthMm'])
  })

  it('FRC-6: rates run from low to high, each item once; weights change something, each once', () => {
    const rate = { item: 'setUp', low: 250, high: 600 }
    expect(problemsOf('repair-rates-set', { basis: 'own', rates: [rate] })).toEqual([])
    expect(problemsOf('repair-rates-set', { basis: 'own', rates: [{ ...rate, high: 100 }] })).toEqual([
      'rates.0.high',
    ])
    expect(problemsOf('repair-rates-set', { basis: 'own', rates: [rate, rate] })).toEqual(['rates.1.item'])
    const weight = { evidence: 'E45', cause: 'CURE', weight: 2 }
    const set = (weights: unknown[], version = 2) =>
      problemsOf('cause-weights-set', { version, reason: 'cases', weights })
    expect(set([weight])).toEqual([])
    expect(set([])).toEqual(['weights'])
    expect(set([weight, weight])).toEqual(['weights.1.cause'])
    expect(set([weight], 1)).toEqual(['version'])
    expect(set([{ ...weight, weight: 9 }])).toEqual(['weights.0.weight'])
  })

  it('FRC-7: a defect recorded before faults had a shape still opens', () => {
    expect(problemsOf('defect-found', { symptom: 'S06', firstSeenOn: '2026-11-02', extent: 'part' })).toEqual(
      [],
    )
  })
})
