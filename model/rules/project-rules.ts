import type { BodyOf } from '../record/kinds.ts'
import { type EffectiveRules, effectiveRules } from './effective.ts'
import type { AnyRuleId } from './rule-set.ts'

/**
 * Returns the rules that a project works to, from what was recorded when it was opened or last changed.
 * @throws InputError when a recorded choice or own value does not exist in this version of the rule set.
 */
export function rulesOfProject(
  project: Pick<BodyOf<'project-opened'>, 'ruleSet' | 'choices' | 'overrides'>,
): EffectiveRules {
  const choices = Object.fromEntries(
    (project.choices ?? []).map(({ question, option }) => [question, option]),
  )
  const overrides = (project.overrides ?? []).map(({ rule, value, reason }) => ({
    id: rule as AnyRuleId,
    value,
    reason,
  }))
  return effectiveRules(project.ruleSet, choices, overrides)
}
