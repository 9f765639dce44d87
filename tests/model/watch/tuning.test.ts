// 40 % of bays and at least 5 of them: our judgement.
import { describe, expect, it } from 'vitest'
import { type Alert, rulesToTune } from '#model/watch/index.ts'

const alert = (rule: string, bay: number, part: Partial<Alert> = {}): Alert => ({
  id: `${rule}:${bay}:1`,
  rule,
  family: 'curing',
  title: `Title of ${rule}`,
  severity: 'watch',
  nonconformance: false,
  since: 1,
  until: null,
  evidence: [],
  whatToDo: '',
  limit: null,
  source: '',
  answeredBy: null,
  ...part,
})
/** So many bays, on the first `fired` of which the rule fired. */
const bays = (of: number, fired: number, make = (bay: number) => [alert('A24', bay)]) =>
  new Map(Array.from({ length: of }, (_, bay) => [`bay ${bay}`, bay < fired ? make(bay) : []]))

describe('TUNE: rules that fire on too many bays', () => {
  it.each([
    [10, 5, 1],
    [10, 4, 0],
    [12, 5, 1],
    [13, 5, 0],
    [5, 5, 1],
    [4, 4, 0],
    [9, 4, 0],
    [0, 0, 0],
    [100, 40, 0],
    [100, 41, 1],
  ])('of %i bays it fired on %i: %i item', (of, fired, items) => {
    expect(rulesToTune(bays(of, fired))).toHaveLength(items)
  })

  it('says which rule, on how many bays, and counts a bay once', () => {
    const twice = (bay: number) => [alert('A24', bay), alert('A24', bay, { since: 2 })]
    expect(rulesToTune(bays(10, 6, twice))).toEqual([
      { rule: 'A24', title: 'Title of A24', family: 'curing', bays: 6, of: 10, sharePercent: 60 },
    ])
  })

  it('counts what ended and what was answered, and lists the most frequent first', () => {
    const ended = (bay: number) => [alert('A24', bay, { until: 2 }), ...(bay < 5 ? [alert('A05', bay)] : [])]
    expect(rulesToTune(bays(10, 7, ended)).map(({ rule }) => rule)).toEqual(['A24', 'A05'])
  })
})
