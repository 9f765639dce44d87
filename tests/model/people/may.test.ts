import { describe, expect, it } from 'vitest'
import { contract } from '#model/contract/index.ts'
import {
  actNames,
  actOf,
  callRule,
  kindRule,
  may,
  needsPin,
  rolesFor,
  ruledKinds,
} from '#model/people/index.ts'
import { kindNames } from '#model/record/kinds.ts'
import { type Role, roles } from '#model/record/people.ts'
import { contractRoutes } from '#tests/electron/hosts/contract-routes.ts'

/** Expected values are the division of work on site, common practice; the finer cuts are our judgement. */
const roleNames = Object.keys(roles) as Role[]
const letters: Record<Role, string> = {
  supervisor: 'S',
  'quality manager': 'Q',
  'flooring contractor': 'F',
  tester: 'T',
  viewer: 'V',
}
const kindsButWithdrawal = kindNames.filter((kind) => kind !== 'entry-withdrawn')
/** What only the host writes by itself. */
const ofTheHost: readonly string[] = ['pin-set', 'device-key-published']
const inLetters = (asked: readonly Role[]) =>
  roleNames
    .filter((role) => asked.includes(role))
    .map((role) => letters[role])
    .join('')

describe('the table of who may do what', () => {
  it('MAY-1: every kind that can be recorded has a row', () => {
    expect(kindsButWithdrawal.filter((kind) => kindRule(kind) === null)).toEqual([])
    expect(ruledKinds.length).toBeGreaterThan(40)
  })

  it('MAY-2: every call of the contract has a row', () => {
    const calls = contractRoutes().map((route) => route.replace('/rpc/', '').replaceAll('/', '.'))
    expect(calls.length).toBeGreaterThan(20)
    expect(calls.filter((call) => callRule(call) === null)).toEqual([])
    const writing = calls.flatMap((call) => {
      const rule = callRule(call)
      return rule?.changes === 'entries' ? [{ call, kinds: rule.kinds }] : []
    })
    expect(writing.map(({ call }) => call)).toEqual(
      expect.arrayContaining(['imports.commit', 'record.append']),
    )
    // A call that writes by itself names kinds that have a row; only the append is judged by what it carries.
    for (const { call, kinds } of writing) {
      if (typeof kinds === 'string') expect(call).toBe('record.append')
      else for (const kind of kinds) expect(kindRule(kind), `${call}: ${kind}`).not.toBeNull()
    }
    expect(Object.keys(contract.people)).toEqual(['status', 'setPin', 'prove', 'lock'])
  })

  it('MAY-3: what has no row is denied to everybody, whatever the act', () => {
    for (const unknown of ['no-such-kind', 'toString', '__proto__']) {
      expect(kindRule(unknown)).toBeNull()
      expect(callRule(unknown)).toBeNull()
      for (const act of actNames) expect(may(roleNames, unknown, act)).toBe(false)
      expect(needsPin(unknown, 'write first')).toBe(true)
    }
  })

  it.each(kindsButWithdrawal)(
    'MAY-4: %s: a viewer writes nothing, and only the quality manager touches what another wrote',
    (kind) => {
      for (const act of actNames) {
        const opens = kind === 'project-opened' && act === 'write first'
        expect(may(['viewer'], kind, act), `viewer, ${act}`).toBe(opens)
        expect(may([], kind, act), `nobody, ${act}`).toBe(false)
        const onAnothers = act.endsWith('another’s')
        const asked = ofTheHost.includes(kind) ? [] : ['quality manager']
        if (onAnothers) expect(rolesFor(kind, act)).toEqual(asked)
        if (onAnothers) expect(needsPin(kind, act)).toBe(true)
      }
    },
  )

  it.each(kindsButWithdrawal.filter((kind) => !ofTheHost.includes(kind)))(
    'MAY-5: %s: the quality manager may do all of it; a role that may not write it may not change it',
    (kind) => {
      for (const act of actNames) expect(may(['quality manager'], kind, act)).toBe(true)
      for (const role of roleNames) {
        if (may([role], kind, 'write first')) continue
        for (const act of actNames) expect(may([role], kind, act), `${role}, ${act}`).toBe(false)
      }
    },
  )

  it.each([
    ['batch-mixed', 'SQ'],
    ['bay-finished', 'SQ'],
    ['sheet-on', 'SQ'],
    ['air-read', 'SQFT'],
    ['moisture-read', 'SQT'],
    ['soundness-tested', 'SQT'],
    ['instrument-checked', 'SQT'],
    ['logger-imported', 'SQT'],
    ['defect-found', 'SQFT'],
    ['wet-event-noted', 'SQFT'],
    ['nonconformance-raised', 'SQFT'],
    ['nonconformance-closed', 'Q'],
    ['hold-point-released', 'SQFT'],
    ['bay-decided', 'QF'],
    ['covering-laid', 'SQF'],
    ['person-added', 'Q'],
    ['project-opened', 'SQFTV'],
    ['pin-set', ''],
  ])('MAY-6: %s is written down by %s', (kind, who) => {
    expect(inLetters(rolesFor(kind, 'write first'))).toBe(who)
  })

  it('MAY-7: signatures are the release, the decision, the close, the rules and the people; site facts are none', () => {
    const signed = kindsButWithdrawal.filter((kind) => needsPin(kind, 'correct own'))
    for (const kind of [
      'hold-point-released',
      'bay-decided',
      'nonconformance-closed',
      'project-opened',
      'person-added',
    ])
      expect(signed).toContain(kind)
    for (const kind of ['batch-mixed', 'air-read', 'sheet-on', 'moisture-read', 'alert-answered'])
      expect(signed).not.toContain(kind)
    expect(needsPin('project-opened', 'write first')).toBe(false)
    expect(needsPin('hold-point-released', 'write first')).toBe(true)
  })

  it('MAY-8: "own" is the version that is replaced', () => {
    const mine = { kind: 'air-read', person: 'a' }
    expect(actOf(mine, null)).toBe('write first')
    expect(actOf(mine, { person: 'a' })).toBe('correct own')
    expect(actOf(mine, { person: 'b' })).toBe('correct another’s')
    expect(actOf({ ...mine, kind: 'entry-withdrawn' }, { person: 'a' })).toBe('withdraw own')
    expect(actOf({ ...mine, kind: 'entry-withdrawn' }, { person: 'b' })).toBe('withdraw another’s')
  })
})
