import { describe, expect, test } from 'vitest'
import { InputError } from '#model/errors.ts'
import {
  type AnyRuleId,
  commonRules,
  effectiveRules,
  keepsLimit,
  limitText,
  listRules,
  type RuleSetId,
  ruleIds,
  ruleSets,
  rulesOfProject,
} from '#model/rules/index.ts'

const setIds = Object.keys(ruleSets) as RuleSetId[]

describe('RULE: limits and their origin', () => {
  test.each(setIds)(
    'RULE-1: every limit of the %s set has a finite value, a unit or ratio, a source and a provenance',
    (id) => {
      for (const { limit } of listRules(effectiveRules(id))) {
        expect(Number.isFinite(limit.value)).toBe(true)
        expect(limit.unit).not.toBe('')
        expect(limit.source.length).toBeGreaterThan(5)
        expect(['quoted second-hand', 'from memory', 'common practice', 'our judgement']).toContain(
          limit.provenance,
        )
      }
    },
  )
  test('RULE-2: no limit claims to be read in the standard itself, because no purchased copy was read', () => {
    const all = setIds.flatMap((id) => [
      ...listRules(effectiveRules(id)).map(({ limit }) => limit),
      ...ruleSets[id].choices.flatMap(({ options }) =>
        options.flatMap(({ limits }) => Object.values(limits)),
      ),
    ])
    expect(all.length).toBeGreaterThan(600)
    expect(all.filter((limit) => limit?.provenance === 'published')).toEqual([])
  })
  test('RULE-3: every common answer lies inside the range that a project may set', () => {
    for (const id of ruleIds) {
      const { range, limit } = commonRules[id]
      expect(limit.value, id).toBeGreaterThanOrEqual(range[0])
      expect(limit.value, id).toBeLessThanOrEqual(range[1])
    }
  })
  test('RULE-4: a value that is not a number never keeps a limit', () => {
    for (const operator of ['<=', '>=', '<', '>'] as const)
      expect(keepsLimit(Number.NaN, { value: 1, operator })).toBe(false)
  })
  test('RULE-5: a limit is printed with its operator, so that 75.0 against “≤ 75” is never in doubt', () => {
    expect(limitText(effectiveRules('british').moisture[0]!.limit)).toBe('≤ 75 % RH')
  })
})

describe('RULE: choices', () => {
  test.each(setIds)(
    'RULE-6: every choice of the %s set has its default among at least two options, and answers only known rules',
    (id) => {
      const known = new Set<string>([...ruleIds, ...ruleSets[id].moisture.map((rule) => rule.id)])
      for (const choice of ruleSets[id].choices) {
        if (choice.id !== 'footTraffic') expect(choice.options.length).toBeGreaterThan(1)
        expect(choice.options.map((option) => option.id)).toContain(choice.default)
        for (const option of choice.options) {
          expect(Object.keys(option.limits).length).toBeGreaterThan(0)
          for (const ruleId of Object.keys(option.limits)) expect(known).toContain(ruleId)
        }
      }
    },
  )
  test('RULE-7: the default of a choice does not silently differ from the set without it', () => {
    for (const id of setIds) {
      const set = ruleSets[id]
      const rules = effectiveRules(id)
      for (const choice of set.choices) {
        const chosen = choice.options.find((option) => option.id === choice.default)!
        for (const [ruleId, limit] of Object.entries(chosen.limits)) {
          const before =
            set.limits[ruleId as keyof typeof set.limits] ??
            (ruleIds.includes(ruleId as never)
              ? commonRules[ruleId as keyof typeof commonRules].limit
              : set.moisture.find((rule) => rule.id === ruleId)!.limit)
          expect(limit?.value, `${id} ${ruleId}`).toBe(before.value)
          expect(listRules(rules).find((rule) => rule.id === ruleId)!.limit).toEqual(limit)
        }
      }
    }
  })
  test('RULE-8: heated calcium sulfate is 0.5 % under DIN 18560-1 and 0.3 % under the covering trades', () => {
    const limitOf = (choices: Record<string, string>) =>
      effectiveRules('german', choices).moisture.find(
        ({ id }) => id === 'moisture.carbide.calciumSulfateHeated',
      )!.limit
    expect(limitOf({})).toMatchObject({ value: 0.5, source: 'DIN 18560-1' })
    expect(limitOf({ calciumSulfateHeated: 'trade' })).toMatchObject({
      value: 0.3,
      provenance: 'quoted second-hand',
    })
  })
  test('RULE-9: an unknown choice or option is refused and the known ones are named', () => {
    expect(() => effectiveRules('british', { colour: 'red' })).toThrow(
      /no choice “colour”; it has timberHumidity/,
    )
    expect(() => effectiveRules('british', { timberHumidity: 'dry' })).toThrow(/all65, bonded65, before2011/)
  })
  test('RULE-10: an unknown rule set is refused', () => {
    expect(() => effectiveRules('martian' as RuleSetId)).toThrow(InputError)
    expect(() => effectiveRules('toString' as RuleSetId)).toThrow(InputError)
  })
})

describe('RULE: a project’s own values', () => {
  test('RULE-11: an own value keeps unit and operator, says why, and is marked as a company rule', () => {
    const rules = effectiveRules('british', {}, [
      { id: 'cure.days', value: 10, reason: 'Cold hall', source: 'Contract 4.2' },
    ])
    expect(rules.limits['cure.days']).toEqual({
      value: 10,
      unit: 'days',
      operator: '>=',
      source: 'Contract 4.2',
      provenance: 'company rule',
      reason: 'Cold hall',
    })
    expect(
      listRules(rules)
        .filter(({ overridden }) => overridden)
        .map(({ id }) => id),
    ).toEqual(['cure.days'])
  })
  test('RULE-12: an own value stands over a choice', () => {
    const own = { id: 'moisture.carbide.calciumSulfateHeated' as const, value: 0.4, reason: 'Maker’s sheet' }
    const rules = effectiveRules('german', { calciumSulfateHeated: 'trade' }, [own])
    expect(rules.moisture.find(({ id }) => id === own.id)!.limit).toMatchObject({ value: 0.4, unit: '% CM' })
  })
  test.each([
    ['no reason', { id: 'cure.days', value: 10, reason: '  ' }, /Say why/],
    ['a value out of range', { id: 'cure.days', value: 400, reason: 'x' }, /may set 1 to 28 days/],
    ['a value that is no number', { id: 'cure.days', value: Number.NaN, reason: 'x' }, /may set/],
    ['an unknown rule', { id: 'cure.weeks' as AnyRuleId, value: 1, reason: 'x' }, /no rule “cure.weeks”/],
    ['a moisture rule of another set', { id: 'moisture.emission.all', value: 4, reason: 'x' }, /no rule/],
  ] as const)('RULE-13: %s is refused with a sentence', (_, override, message) => {
    expect(() => effectiveRules('british', {}, [override])).toThrow(message)
  })
  test('RULE-14: the sets themselves are never changed by choices or own values', () => {
    const before = JSON.stringify(ruleSets)
    effectiveRules('british', { timberHumidity: 'bonded65' }, [{ id: 'cure.days', value: 9, reason: 'x' }])
    expect(JSON.stringify(ruleSets)).toBe(before)
  })
  test('RULE-15: rules survive being stored as JSON, so that a verdict can be replayed', () => {
    const rules = effectiveRules('swiss', {}, [{ id: 'cure.days', value: 9, reason: 'x' }])
    expect(JSON.parse(JSON.stringify(rules))).toEqual(rules)
  })
})

test('RULE-16: the rules of a project are those recorded with it', () => {
  const rules = rulesOfProject({
    ruleSet: 'german',
    choices: [{ question: 'calciumSulfateHeated', option: 'trade' }],
    overrides: [{ rule: 'cure.days', value: 8, reason: 'Contract' }],
  })
  expect(rules.choices.calciumSulfateHeated).toBe('trade')
  expect(rules.limits['cure.days']).toMatchObject({ value: 8, provenance: 'company rule' })
})
