import { InputError } from '../errors.ts'
import { commonRules, type RuleId, ruleIds } from './common/index.ts'
import type { Limit } from './limit.ts'
import type { RuleGroup } from './rule.ts'
import type { AnyRuleId, Choice, MoistureRule, RuleSetId } from './rule-set.ts'
import { ruleSets } from './sets/index.ts'

/** A project's own value. The reason is kept, because a limit without one cannot be defended. */
export interface Override {
  id: AnyRuleId
  value: number
  reason: string
  /** The document that asks for it, such as a contract clause or a maker's data sheet. */
  source?: string
}

/** The rules that a project works to: one answer to every question, and the moisture limits of its rule set. */
export interface EffectiveRules {
  ruleSet: RuleSetId
  name: string
  version: string
  /** Choice id → option in force. */
  choices: Readonly<Record<string, string>>
  limits: Readonly<Record<RuleId, Limit>>
  moisture: readonly MoistureRule[]
}

/** One line of the Set-up screen. */
export interface ListedRule {
  id: AnyRuleId
  group: RuleGroup
  question: string
  limit: Limit
  range: readonly [least: number, most: number]
  /** True when the project replaced the value. */
  overridden: boolean
}

/**
 * Returns the rules in force: the common answers, changed by the rule set, then by the project's choices, then by its
 * own values.
 *
 * @param ruleSetId which national rule set.
 * @param choices choice id → option id; a choice left out takes its default.
 * @param overrides the project's own values; each needs a reason, and its limit is marked as a company rule.
 * @throws InputError when a set, choice, option or rule is unknown, a reason is empty or a value is out of range.
 */
export function effectiveRules(
  ruleSetId: RuleSetId,
  choices: Readonly<Record<string, string>> = {},
  overrides: readonly Override[] = [],
): EffectiveRules {
  const set = Object.hasOwn(ruleSets, ruleSetId) ? ruleSets[ruleSetId] : undefined
  if (set === undefined) {
    throw new InputError(
      'ruleSetId',
      `There is no rule set “${ruleSetId}”; choose ${Object.keys(ruleSets).join(', ')}.`,
    )
  }
  const chosen = chosenOptions(set.choices, choices)
  const changes: Partial<Record<AnyRuleId, Limit>> = { ...set.limits }
  for (const choice of set.choices) {
    const option = choice.options.find(({ id }) => id === chosen[choice.id])
    Object.assign(changes, option?.limits)
  }
  const known = (id: AnyRuleId) => changes[id] ?? unchangedLimit(id, set.moisture)
  for (const override of overrides) changes[override.id] = overriddenLimit(override, known(override.id))

  const limits = Object.fromEntries(ruleIds.map((id) => [id, changes[id] ?? commonRules[id].limit]))
  return {
    ruleSet: set.id,
    name: set.name,
    version: set.version,
    choices: chosen,
    limits: limits as Record<RuleId, Limit>,
    moisture: set.moisture.map((rule) => ({ ...rule, limit: changes[rule.id] ?? rule.limit })),
  }
}

/** Returns the rules of a set by its id, with every choice at its default; rules that are given are returned as they are. */
export function rulesIn(ruleSet: RuleSetId | EffectiveRules): EffectiveRules {
  return typeof ruleSet === 'object' ? ruleSet : effectiveRules(ruleSet)
}

/** Returns every rule in force with its question, for a screen that lists and changes them. */
export function listRules(rules: EffectiveRules): ListedRule[] {
  const common = ruleIds.map((id) => {
    const { question, group, range } = commonRules[id]
    return listed(id, group, question, rules.limits[id], range)
  })
  const moisture = rules.moisture.map(({ id, question, limit }) =>
    listed(id, 'Moisture limits', question, limit, moistureRange(limit)),
  )
  return [...common, ...moisture]
}

function listed(
  id: AnyRuleId,
  group: RuleGroup,
  question: string,
  limit: Limit,
  range: ListedRule['range'],
): ListedRule {
  return { id, group, question, limit, range, overridden: limit.provenance === 'company rule' }
}

function chosenOptions(
  choices: readonly Choice[],
  wanted: Readonly<Record<string, string>>,
): Record<string, string> {
  for (const id of Object.keys(wanted)) {
    if (choices.some((choice) => choice.id === id)) continue
    const ids = choices.map((choice) => choice.id).join(', ')
    throw new InputError('choices', `This rule set has no choice “${id}”; it has ${ids}.`)
  }
  return Object.fromEntries(
    choices.map((choice) => {
      const optionId = wanted[choice.id] ?? choice.default
      if (!choice.options.some(({ id }) => id === optionId)) {
        const ids = choice.options.map(({ id }) => id).join(', ')
        throw new InputError(
          `choices.${choice.id}`,
          `“${choice.question}” has no answer “${optionId}”; choose ${ids}.`,
        )
      }
      return [choice.id, optionId]
    }),
  )
}

function unchangedLimit(id: AnyRuleId, moisture: readonly MoistureRule[]): Limit {
  if (isRuleId(id)) return commonRules[id].limit
  const row = moisture.find((rule) => rule.id === id)
  if (row === undefined) throw new InputError('overrides', `There is no rule “${id}” in this rule set.`)
  return row.limit
}

function overriddenLimit(override: Override, replaced: Limit): Limit {
  const { id, value, reason, source } = override
  const [least, most] = isRuleId(id) ? commonRules[id].range : moistureRange(replaced)
  if (!(value >= least && value <= most)) {
    throw new InputError(
      `overrides.${id}`,
      `${id} is ${value}; a project may set ${least} to ${most} ${replaced.unit}.`,
    )
  }
  if (reason.trim() === '') {
    throw new InputError(
      `overrides.${id}`,
      `Say why ${id} is changed: a limit without a reason cannot be defended.`,
    )
  }
  return {
    value,
    unit: replaced.unit,
    operator: replaced.operator,
    source: source ?? 'Company rule',
    provenance: 'company rule',
    reason: reason.trim(),
  }
}

function moistureRange({ unit }: Limit): readonly [number, number] {
  if (unit === '% RH') return [50, 95]
  return unit.startsWith('lb') ? [1, 15] : [0.1, 6]
}

function isRuleId(id: string): id is RuleId {
  return Object.hasOwn(commonRules, id)
}
