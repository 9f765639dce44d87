import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { holdOrder, holdRules } from '#model/hold/index.ts'
import {
  judgedKinds,
  type Made,
  makerProblem,
  pinProblem,
  pinRules,
  roleProblem,
  rolesInForce,
  waitAfter,
} from '#model/people/index.ts'
import { type Role, roles } from '#model/record/people.ts'

const every = Object.keys(roles) as Role[]
const person = (id: string, role: Role) => ({ id, role })

describe('opening a project', () => {
  it('OPEN-1: who is alone may act in every role, whatever theirs is', () => {
    for (const role of every)
      expect(rolesInForce('a', { people: [person('a', role)], openedBy: 'a' })).toEqual(every)
  })

  it('OPEN-2: with others but no quality manager, who opened it stands in for one; nobody else does', () => {
    const company = { people: [person('a', 'supervisor'), person('b', 'tester')], openedBy: 'a' }
    expect(rolesInForce('a', company)).toEqual(['supervisor', 'quality manager'])
    expect(rolesInForce('b', company)).toEqual(['tester'])
  })

  it('OPEN-3: the standing-in ends with the first quality manager', () => {
    const people = [person('a', 'supervisor'), person('b', 'quality manager')]
    expect(rolesInForce('a', { people, openedBy: 'a' })).toEqual(['supervisor'])
    expect(rolesInForce('b', { people, openedBy: 'a' })).toEqual(['quality manager'])
  })

  it('OPEN-4: somebody who is not of the project may act in no role', () => {
    expect(rolesInForce('x', { people: [person('a', 'supervisor')], openedBy: 'x' })).toEqual([])
    expect(rolesInForce('x', { people: [], openedBy: null })).toEqual([])
  })

  it('OPEN-5: in any company of two or more that its opener is in, somebody can set the rules and nobody is given a role for nothing', () => {
    const company = fc
      .array(fc.constantFrom(...every), { minLength: 2, maxLength: 6 })
      .map((given) => ({ people: given.map((role, i) => person(String(i), role)), openedBy: '0' }))
    fc.assert(
      fc.property(company, ({ people, openedBy }) => {
        const inForce = people.map(({ id, role }) => ({
          id,
          role,
          may: rolesInForce(id, { people, openedBy }),
        }))
        expect(inForce.some(({ may }) => may.includes('quality manager'))).toBe(true)
        for (const { id, role, may } of inForce) if (id !== '0') expect(may).toEqual([role])
      }),
    )
  })
})

describe('who made it does not check it', () => {
  const test: Made = { id: 't', kind: 'moisture-read', writers: ['tester', 'second'], body: {} }
  const letGo = (who: string, point: string, decision = 'released') => ({
    kind: 'hold-point-released',
    person: who,
    body: { point, decision, saw: 'Looked' },
  })

  it.each(['released', 'waived'])(
    'MAKER-1: %s: who wrote a version of the moisture test may not let its point go; another may',
    (decision) => {
      expect(makerProblem(letGo('tester', 'moisture test', decision), [test])).toMatch(
        /Let another person look/,
      )
      expect(makerProblem(letGo('second', 'moisture test', decision), [test])).toMatch(/“Moisture test”/)
      expect(makerProblem(letGo('manager', 'moisture test', decision), [test])).toBeNull()
    },
  )

  it('MAKER-2: saying no is never refused: a hold, a refusal, a covering that somebody ordered', () => {
    expect(makerProblem(letGo('tester', 'moisture test', 'held'), [test])).toBeNull()
    for (const decision of ['refused', 'waived'])
      expect(makerProblem({ kind: 'bay-decided', person: 'tester', body: { decision } }, [test])).toBeNull()
  })

  it('MAKER-3: who tested the bay may not accept it', () => {
    const accepts = (who: string) => ({ kind: 'bay-decided', person: who, body: { decision: 'accepted' } })
    expect(makerProblem(accepts('tester'), [test])).toMatch(/cannot accept it/)
    expect(makerProblem(accepts('layer'), [test])).toBeNull()
    expect(makerProblem(accepts('tester'), [])).toBeNull()
  })

  it('MAKER-4: nobody closes a non-conformance that they own, or raised without an owner', () => {
    const raised = (body: Record<string, unknown>): Made => ({
      id: 'n',
      kind: 'nonconformance-raised',
      writers: ['manager'],
      body,
    })
    const closes = (who: string) => ({ kind: 'nonconformance-closed', person: who, body: { raised: 'n' } })
    expect(makerProblem(closes('owner'), [raised({ owner: 'owner' })])).toMatch(/owner .* cannot close/)
    expect(makerProblem(closes('manager'), [raised({ owner: 'owner' })])).toBeNull()
    expect(makerProblem(closes('manager'), [raised({})])).toMatch(/names no owner/)
    expect(makerProblem(closes('other'), [raised({})])).toBeNull()
    expect(makerProblem(closes('manager'), [])).toBeNull()
  })

  it.each(holdOrder)(
    'MAKER-5: %s: whatever its point judges keeps its writer from letting it go',
    (point) => {
      const judged = judgedKinds(point)
      for (const kind of judged) {
        const made: Made = { id: 'x', kind, writers: ['maker'], body: {} }
        if (point !== 'release') expect(makerProblem(letGo('maker', point), [made])).not.toBeNull()
        expect(makerProblem(letGo('other', point), [made])).toBeNull()
      }
      if (!point.startsWith('curing')) expect(judged.length).toBeGreaterThan(0)
    },
  )

  it.each(holdOrder)(
    'MAKER-6: %s is let go only by the roles that stand with it; who else may write may hold it',
    (point) => {
      const may = holdRules[point].mayRelease
      for (const role of every) {
        const asked = (decision: string) =>
          roleProblem({ kind: 'hold-point-released', act: 'write first', body: { point, decision } }, [role])
        expect(asked('released') === null, role).toBe(may.includes(role))
        expect(asked('waived') === null, role).toBe(may.includes(role))
        expect(asked('held') === null, role).toBe(role !== 'viewer')
      }
    },
  )

  it('MAKER-7: a refusal says who may', () => {
    const problem = roleProblem({ kind: 'bay-decided', act: 'write first', body: {} }, ['supervisor'])
    expect(problem).toBe(
      'A site supervisor may not write down “Decision on covering”. Let a flooring contractor or quality manager do it.',
    )
    expect(roleProblem({ kind: 'pin-set', act: 'write first', body: {} }, ['quality manager'])).toMatch(
      /^Nobody may/,
    )
  })
})

describe('what a PIN must be', () => {
  it.each(['123456', '654321', '000000', '12345', '1234567890123', '12a456', '', ' 48213', '４８２１３９'])(
    'PIN-1: “%s” is refused with a reason',
    (pin) => expect(pinProblem(pin)).toMatch(/^must/),
  )
  it.each(['482139', '112233', '0000001', '123457', '482139482139'])('PIN-2: “%s” can be used', (pin) => {
    expect(pinProblem(pin)).toBeNull()
  })
  it('PIN-3: the wait begins with the fifth wrong try, never falls and never exceeds an hour', () => {
    const waits = Array.from({ length: 60 }, (_, wrong) => waitAfter(wrong))
    expect(waits.slice(0, pinRules.freeTries)).toEqual([0, 0, 0, 0, 0])
    expect(waits[5]).toBe(60_000)
    expect(waits[6]).toBe(120_000)
    for (let i = 1; i < waits.length; i++) expect(waits[i]).toBeGreaterThanOrEqual(waits[i - 1]!)
    expect(Math.max(...waits)).toBe(3_600_000)
  })
  it('PIN-4: at the longest wait half of all six-digit PINs take more than ten years to try', () => {
    const triesADay = 24 + pinRules.freeTries
    expect(500_000 / triesADay / 365).toBeGreaterThan(10)
  })
})
