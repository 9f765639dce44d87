import { InputError } from '../../errors.ts'
import { type EffectiveRules, rulesIn } from '../../rules/effective.ts'
import type { Limit } from '../../rules/limit.ts'
import type { MoistureRule, RuleSetId } from '../../rules/rule-set.ts'
import { type Covering, type MoistureMethod, type Screed, scaleOfMethod } from '../../rules/words.ts'
import type { Why } from '../../why.ts'

export interface MoistureLimitQuestion {
  covering: Covering
  method: MoistureMethod
  screed: Screed
  heated: boolean
  /** A set with every choice at its default, or the rules of a project. */
  ruleSet: RuleSetId | EffectiveRules
}

/**
 * Returns the wettest that a screed may be under a covering, on the scale of a test method; null when the rules have no such
 * limit, and always for the electrical meter, which is a survey and never an acceptance.
 *
 * @throws InputError when the rule set or the method is unknown.
 * @source moisture limits of the rules in force (BS 8203, BS 8201, BS 5325, BS 5385-3, DIN 18560-1, SIA 253, ASTM F710).
 * @provenance as the limit says
 */
export function moistureLimit(question: MoistureLimitQuestion): Limit | null {
  return moistureRuleFor(question)?.limit ?? null
}

/** The moisture limit with the row of the rules that it comes from. */
export function whyMoistureLimit(question: MoistureLimitQuestion): Why {
  const rules = rulesIn(question.ruleSet)
  const rule = moistureRuleFor(question)
  const choice = Object.entries(rules.choices).map(([name, value]) => ({ name, value, unit: 'choice' }))
  return {
    what: rule?.question ?? 'Moisture limit',
    value: rule?.limit.value ?? null,
    unit: rule?.limit.unit ?? '',
    inputs: [
      { name: 'Covering', value: question.covering, unit: '' },
      { name: 'Test', value: question.method, unit: '' },
      { name: 'Screed', value: question.screed, unit: '' },
      { name: 'Heated', value: question.heated ? 'yes' : 'no', unit: '' },
      { name: 'Rule set', value: `${rules.name} ${rules.version}`, unit: '' },
      ...choice,
    ],
    formula:
      rule === undefined
        ? 'These rules have no limit for this test here: take it from the maker or the contract.'
        : 'the most particular row of the rules that fits covering, test, screed and heating',
    source: [rule?.limit.source ?? rules.name, rule?.limit.edition, rule?.limit.clause]
      .filter(Boolean)
      .join(', '),
    provenance: rule?.limit.provenance ?? 'our judgement',
  }
}

function moistureRuleFor({
  covering,
  method,
  screed,
  heated,
  ruleSet,
}: MoistureLimitQuestion): MoistureRule | undefined {
  if (!Object.hasOwn(scaleOfMethod, method)) {
    throw new InputError(
      'method',
      `There is no test “${String(method)}”; choose ${Object.keys(scaleOfMethod).join(', ')}.`,
    )
  }
  const scale = scaleOfMethod[method]
  return rulesIn(ruleSet).moisture.findLast(
    (rule) =>
      rule.scale === scale &&
      rule.coverings.includes(covering) &&
      rule.screeds.includes(screed) &&
      rule.heated.includes(heated),
  )
}
