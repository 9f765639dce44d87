export { commonRules, type RuleId, ruleIds } from './common/index.ts'
export {
  type EffectiveRules,
  effectiveRules,
  type ListedRule,
  listRules,
  type Override,
  rulesIn,
} from './effective.ts'
export * from './limit.ts'
export { rulesOfProject } from './project-rules.ts'
export type { Rule, RuleGroup } from './rule.ts'
export type {
  AnyRuleId,
  Choice,
  ChoiceOption,
  MoistureRule,
  MoistureRuleId,
  RuleSet,
  RuleSetId,
} from './rule-set.ts'
export { ruleSets } from './sets/index.ts'
export * from './words.ts'
