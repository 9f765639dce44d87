import { describe, expect, it } from 'vitest'
import type { Readiness, ReadyVerdict } from '#model/readiness/verdict.ts'
import { checkBody } from '#model/record/check-body.ts'
import { type DecisionDraft, readDecision } from '#renderer/screens/ready/decision.ts'

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
  own: '',
  ticked: [],
  reason: '',
  nextLookOn: '',
  orderedBy: '',
  explained: '',
  ...part,
})

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

  it('DECIDE-4: a waiver names who ordered it and what was explained, and says that there was no valid reading', () => {
    const by = { decision: 'waived', orderedBy: 'I. Penn, client' } as const
    expect(readDecision(draft(by), readiness('not proven'), 'vinyl')).toMatchObject({ field: 'orderedBy' })
    const read = readDecision(draft({ ...by, explained: 'Blisters' }), readiness('not proven'), 'vinyl')
    if (read.kind !== 'body') throw new Error('All was given')
    expect(read.body.reasons?.[0]?.reason).toBe(
      'Ordered by I. Penn, client, knowing: no valid reading. Explained: Blisters',
    )
    expect(checkBody('bay-decided', read.body).problems).toEqual([])
  })
})
