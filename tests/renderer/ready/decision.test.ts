import { describe, expect, it } from 'vitest'
import type { Readiness, ReadyVerdict } from '#model/readiness/verdict.ts'
import { checkBody } from '#model/record/check-body.ts'
import { type DecisionDraft, readDecision as readWith } from '#renderer/screens/ready/decision.ts'

const readiness = (verdict: ReadyVerdict): Readiness => ({
  verdict,
  covering: 'vinyl',
  asOf: 0,
  governing: null,
  conditions: [
    { name: 'Thickness', state: 'met', because: 'Least 68 mm.', entries: [] },
    { name: 'Valid moisture test', state: 'unknown', because: 'No test was made.', entries: [] },
  ],
  why: [],
})
const draft = (part: Partial<DecisionDraft>): DecisionDraft => ({
  decision: 'refused',
  ownValue: '',
  ownMethod: 'hygrometer box',
  ownPlace: '',
  own: '',
  ticked: [],
  reason: '',
  nextLookOn: '',
  orderedBy: '',
  orderedAs: '',
  explained: '',
  ...part,
})

const until = Date.UTC(2026, 11, 7, 9)
const readDecision = (typed: DecisionDraft, shown: Readiness, covering: 'vinyl') =>
  readWith(typed, shown, covering, until)

describe('a decision on covering', () => {
  it('DECIDE-1: nobody accepts without a check reading of their own', () => {
    const asked = readDecision(draft({ decision: 'accepted', own: '  ' }), readiness('ready'), 'vinyl')
    expect(asked).toMatchObject({ kind: 'missing', field: 'own' })
  })

  it('DECIDE-2: the record refuses an acceptance of a bay that is not READY, whatever a screen sends', () => {
    for (const verdict of ['not ready', 'not proven'] as const) {
      const read = readDecision(draft({ decision: 'accepted', own: '70 % RH' }), readiness(verdict), 'vinyl')
      if (read.kind !== 'body') throw new Error('A reading was given')
      expect(checkBody('bay-decided', read.body).problems.map(({ field }) => field)).toEqual(['decision'])
    }
    const ready = readDecision(draft({ decision: 'accepted', own: '70 % RH' }), readiness('ready'), 'vinyl')
    expect(ready.kind === 'body' && checkBody('bay-decided', ready.body).problems).toEqual([])
  })

  it('DECIDE-3: a refusal needs a reason; ticked conditions become reasons with what they rest on, met ones never', () => {
    expect(readDecision(draft({}), readiness('not proven'), 'vinyl')).toMatchObject({ field: 'reason' })
    const ticked = ['Valid moisture test', 'Thickness']
    const read = readDecision(draft({ ticked, reason: 'Dust' }), readiness('not proven'), 'vinyl')
    expect(read).toMatchObject({
      body: { reasons: [{ reason: 'Valid moisture test: No test was made.' }, { reason: 'Dust' }] },
    })
  })

  it('DECIDE-8: what somebody read themselves stands in a refusal, and is a reason by itself', () => {
    const typed = { ownValue: '81', ownPlace: 'B3' }
    expect(readDecision(draft(typed), readiness('ready'), 'vinyl')).toMatchObject({
      body: {
        decision: 'refused',
        reasons: [{ reason: 'Own check: 81 % RH at B3, insulated hygrometer box' }],
        ownChecks: [{ value: 81, unit: '% RH', method: 'hygrometer box', place: 'B3' }],
      },
    })
    expect(readDecision(draft({ ownValue: '81', reason: 'Wet' }), readiness('ready'), 'vinyl')).toMatchObject(
      {
        field: 'ownPlace',
      },
    )
  })

  it('DECIDE-4: a waiver names who ordered it, in which role, against what, and what was explained', () => {
    const by = { decision: 'waived', orderedBy: 'I. Penn', orderedAs: 'client' } as const
    for (const [typed, field] of [
      [{ decision: 'waived' }, 'orderedBy'],
      [{ decision: 'waived', orderedBy: 'I. Penn' }, 'orderedAs'],
      [by, 'explained'],
    ] as const)
      expect(readDecision(draft(typed), readiness('not proven'), 'vinyl')).toMatchObject({
        kind: 'missing',
        field,
      })
    const read = readDecision(draft({ ...by, explained: 'Blisters' }), readiness('not proven'), 'vinyl')
    if (read.kind !== 'body') throw new Error('All was given')
    expect(read.body).toMatchObject({
      orderedBy: 'I. Penn',
      orderedAs: 'client',
      knownReading: 'no valid reading',
      knownLimit: 'no limit in these rules',
      explained: 'Blisters',
    })
    expect(read.body.reasons?.[0]?.reason).toBe(
      'Ordered by I. Penn (client), knowing: no valid reading against no limit in these rules. Explained: Blisters',
    )
    expect(checkBody('bay-decided', read.body).problems).toEqual([])
  })

  it('DECIDE-5: an own check is value, method and place together, in the unit of its method', () => {
    const typed = { decision: 'accepted', ownValue: '66,5', ownPlace: 'B3' } as const
    const read = readDecision(draft(typed), readiness('ready'), 'vinyl')
    if (read.kind !== 'body') throw new Error('All was given')
    expect(read.body.ownChecks).toEqual([
      { value: 66.5, unit: '% RH', method: 'hygrometer box', place: 'B3' },
    ])
    expect(read.body.ownReading).toBe('66.5 % RH at B3, insulated hygrometer box')
    expect(read.body.holdsUntil).toBe('2026-12-07T09:00:00.000Z')
    expect(checkBody('bay-decided', read.body).problems).toEqual([])
    const both = readDecision(draft({ ...typed, own: 'Probe 4417, room warm' }), readiness('ready'), 'vinyl')
    expect(both).toMatchObject({
      body: { ownReading: 'Probe 4417, room warm', ownChecks: [{ value: 66.5 }] },
    })
  })

  it.each([
    [{ ownValue: '66' }, 'ownPlace'],
    [{ ownPlace: 'B3' }, 'ownValue'],
    [{ ownValue: 'dry', ownPlace: 'B3' }, 'ownValue'],
    [{ ownValue: '101', ownPlace: 'B3' }, 'ownValue'],
    [{ ownValue: '-1', ownPlace: 'B3' }, 'ownValue'],
    [{ ownValue: '66', ownPlace: 'B3', ownMethod: null }, 'ownMethod'],
  ] as const)('DECIDE-6: half an own check is asked for, even beside words: %j', (typed, field) => {
    const half = { decision: 'accepted', own: 'Looked dry', ...typed } as const
    expect(readDecision(draft(half), readiness('ready'), 'vinyl')).toMatchObject({ kind: 'missing', field })
  })

  it('DECIDE-7: the record refuses a unit that is not the method’s, more than 100 %, and half a waiver', () => {
    const accepted = { decision: 'accepted', covering: 'vinyl', verdictShown: 'ready', ownReading: 'x' }
    const check = { value: 66, unit: '% RH', method: 'probe', place: 'B3' }
    const fields = (body: Record<string, unknown>) =>
      checkBody('bay-decided', body).problems.map(({ field }) => field)
    expect(fields({ ...accepted, ownChecks: [check] })).toEqual([])
    expect(fields({ ...accepted, ownChecks: [{ ...check, unit: '% CM' }] })).toEqual(['ownChecks.0.unit'])
    expect(fields({ ...accepted, ownChecks: [{ ...check, value: 166 }] })).toEqual(['ownChecks.0.value'])
    const waived = {
      decision: 'waived',
      covering: 'vinyl',
      verdictShown: 'not ready',
      reasons: [{ reason: 'r' }],
    }
    expect(fields(waived)).toEqual([])
    expect(fields({ ...waived, orderedBy: 'I. Penn' })).toEqual([
      'orderedAs',
      'knownReading',
      'knownLimit',
      'explained',
    ])
  })
})
